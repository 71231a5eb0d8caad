import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkAddresses } from "../../../src/domain/bank/addresses.ts";
import { bankSettings } from "../../../src/domain/bank/bank-settings.ts";
import { compareSettings } from "../../../src/domain/bank/compare.ts";
import type { PackSettings } from "../../../src/domain/bank/settings.ts";
import { sampleMap } from "./sample-map.ts";

describe("checkAddresses", () => {
  test.each([
    ["in a row", [0, 1, 2], [], []],
    ["in a row, in any order, from any start", [7, 5, 6], [], []],
    ["one pack", [4], [], []],
    ["no pack", [], [], []],
    ["two alike", [0, 1, 1], [{ address: 1, positions: [2, 3] }], []],
    [
      "two clashes",
      [5, 5, 6, 6],
      [
        { address: 5, positions: [1, 2] },
        { address: 6, positions: [3, 4] },
      ],
      [],
    ],
    ["three alike", [2, 2, 2], [{ address: 2, positions: [1, 2, 3] }], []],
    ["a gap", [0, 2], [], [1]],
    ["a wide gap", [1, 5], [], [2, 3, 4]],
  ])("%s: %j", (_case, addresses, clashes, gaps) => {
    const check = checkAddresses(addresses);
    expect(check.clashes).toEqual(clashes);
    expect(check.gaps).toEqual(gaps);
    expect(check.ok).toBe(clashes.length + gaps.length === 0);
  });

  test("the sentences name the packs", () => {
    expect(checkAddresses([0, 3, 3, 1]).sentences).toEqual([
      "Packs 2 and 3 all have address 3.",
      "No pack has address 2, between pack 4 (address 1) and packs 2 and 3 (address 3).",
    ]);
  });

  test("it is satisfied exactly where the addresses are a run of whole numbers", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 6 }), { maxLength: 6 }), (addresses) => {
        const sorted = [...addresses].sort((a, b) => a - b);
        const run = sorted.every((address, at) => address === (sorted[0] ?? 0) + at);
        expect(checkAddresses(addresses).ok).toBe(run);
      }),
    );
  });
});

describe("compareSettings", () => {
  type Change = (packs: PackSettings[]) => void;
  const map = sampleMap();
  const settings = bankSettings(map, "binary", 3);
  const expected = settings.ok ? settings.packs : [];
  const foundWith = (change: Change): string[] => {
    const found = structuredClone(expected);
    change(found);
    return compareSettings(map, expected, found).map(({ sentence }) => sentence);
  };
  const set =
    (pack: number, switchId: string, position: string): Change =>
    (packs) => {
      const setting = packs[pack - 1]?.settings.find((one) => one.switch === switchId);
      if (setting) setting.position = position;
    };

  test.each<[string, Change, string[]]>([
    ["nothing", () => undefined, []],
    ["a dial", set(2, "dial", "7"), ["Pack 2, Address: is 7, must be 0."]],
    [
      "two levers, each named",
      set(2, "levers", "011001"),
      [
        "Pack 2, Mode: lever 1 is off, must be on.",
        "Pack 2, Mode: lever 2 is on, must be off.",
        "Pack 2, Mode: lever 3 is on, must be off.",
      ],
    ],
    ["the termination", set(3, "end", "off"), ["Pack 3, Termination: is off, must be on."]],
    [
      "a position that is not there",
      set(1, "dial", "G"),
      ["Pack 1, Address: “G” is no position of this switch, must be 0."],
    ],
    ["a pack not read", (packs) => void packs.pop(), ["Pack 3 was not read."]],
    [
      "a switch not read",
      (packs) => void packs[0]?.settings.pop(),
      ["Pack 1, Termination: not read, must be off."],
    ],
    [
      "a pack too many",
      (packs) => void packs.push({ position: 4, settings: [] }),
      ["Pack 4 is not part of this bank of 3."],
    ],
    [
      "a pack read twice",
      (packs) => void packs.push({ position: 1, settings: [] }),
      ["Pack 1 was read 2 times."],
    ],
  ])("differing in %s", (_case, change, sentences) => {
    expect(foundWith(change)).toEqual(sentences);
  });
});
