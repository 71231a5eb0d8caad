// Switch maps are the makers' own; the arithmetic they use (binary levers, hexadecimal dials) is
// checked against the language's own parsing of base 2 and 16. Common practice, no source.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { addressOf, bankSettings } from "../../../src/domain/bank/bank-settings.ts";
import { allLevers, binaryDigits, positionValue } from "../../../src/domain/bank/position.ts";
import type { PackSettings } from "../../../src/domain/bank/settings.ts";
import { binaryProtocol, rotaryProtocol, rowsProtocol, sampleMap } from "./sample-map.ts";

const map = sampleMap();

function settingsOf(protocolId: string, packCount: number): PackSettings[] {
  const settings = bankSettings(map, protocolId, packCount);
  if (!settings.ok) throw new Error(settings.problem);
  return settings.packs;
}
const positions = (packs: PackSettings[], switchId: string) =>
  packs.map((pack) => pack.settings.find((one) => one.switch === switchId)?.position);

describe("settings by rule", () => {
  test("a dial shows pack position − 1 in hexadecimal, up to the sixteenth pack", () => {
    const dials = positions(settingsOf("rotary", 16), "dial");
    expect(dials.map((dial) => Number.parseInt(dial ?? "", 16))).toEqual(
      Array.from({ length: 16 }, (_, at) => at),
    );
  });

  test("levers 1 to 4 spell pack position − 1 in binary, lever 1 counting one", () => {
    const levers = positions(settingsOf("binary", 16), "levers");
    const values = levers.map((pattern) =>
      Number.parseInt([...(pattern ?? "").slice(0, 4)].reverse().join(""), 2),
    );
    expect(values).toEqual(Array.from({ length: 16 }, (_, at) => at));
  });

  test("pack six of six: 5 is 1010 from lever 1, lever 5 on for the last, lever 6 always", () => {
    expect(positions(settingsOf("binary", 6), "levers")[5]).toBe("101011");
    expect(positions(settingsOf("binary", 7), "levers")[5]).toBe("101001");
  });

  test.each([
    [1, ["on"]],
    [2, ["off", "on"]],
    [4, ["off", "off", "off", "on"]],
  ])("termination is on for the last of %s packs only", (packCount, expected) => {
    expect(positions(settingsOf("binary", packCount), "end")).toEqual(expected);
  });

  test.each([
    [1, ["on"]],
    [2, ["on", "on"]],
    [3, ["on", "off", "on"]],
  ])("where both ends are terminated, %s packs read %j", (packCount, expected) => {
    expect(positions(settingsOf("rotary", packCount), "end")).toEqual(expected);
  });

  test("the first pack can carry the number of packs", () => {
    const counting = sampleMap({
      ...rotaryProtocol,
      packCount: { minimum: 1, maximum: 8 },
      settings: {
        form: "formula",
        parts: [
          { switch: "dial", rule: { by: "position", add: -1 } },
          { switch: "levers", rule: { by: "pack-count-on-first", add: 0 } },
          { switch: "end", rule: { by: "ends", which: "first" } },
        ],
      },
    });
    const settings = bankSettings(counting, "rotary", 6);
    const packs = settings.ok ? settings.packs : [];
    expect(positions(packs, "levers").slice(0, 2)).toEqual(["011000", "000000"]);
    expect(positions(packs, "end")).toEqual(["on", "off", "off", "off", "off", "off"]);
  });
});

describe("settings by rows", () => {
  test("each pack takes its row, and the last pack's row overrides only what it names", () => {
    expect(settingsOf("rows", 3)).toEqual([
      {
        position: 1,
        settings: [
          { switch: "dial", position: "1" },
          { switch: "levers", position: "110000" },
          { switch: "end", position: "off" },
        ],
      },
      {
        position: 2,
        settings: [
          { switch: "dial", position: "2" },
          { switch: "levers", position: "000000" },
          { switch: "end", position: "off" },
        ],
      },
      {
        position: 3,
        settings: [
          { switch: "dial", position: "3" },
          { switch: "levers", position: "000000" },
          { switch: "end", position: "on" },
        ],
      },
    ]);
  });
});

describe("refusals", () => {
  test.each([
    ["rows", 1],
    ["rows", 5],
    ["rotary", 0],
    ["rotary", 17],
    ["rotary", 2.5],
    ["rotary", Number.NaN],
  ])("%s refuses a bank of %s packs and says which sizes it takes", (protocolId, packCount) => {
    const settings = bankSettings(map, protocolId, packCount);
    expect(settings).toMatchObject({
      ok: false,
      problem: expect.stringMatching(/takes \d+ to \d+/),
    });
  });

  test.each([
    ["rows", 2],
    ["rows", 4],
    ["rotary", 1],
    ["rotary", 16],
  ])("%s takes a bank of %s packs", (protocolId, packCount) => {
    expect(settingsOf(protocolId, packCount)).toHaveLength(packCount);
  });

  test("an unknown protocol is refused with the known ones", () => {
    const settings = bankSettings(map, "morse", 2);
    expect(settings).toMatchObject({
      ok: false,
      problem: expect.stringContaining("rotary, binary"),
    });
  });
});

describe("addresses", () => {
  test("are unique and without gaps for every protocol and every count in its range", () => {
    const anyBank = fc
      .constantFrom(rotaryProtocol, binaryProtocol, rowsProtocol)
      .chain(({ id, packCount }) =>
        fc.tuple(fc.constant(id), fc.integer({ min: packCount.minimum, max: packCount.maximum })),
      );
    fc.assert(
      fc.property(anyBank, ([protocolId, packCount]) => {
        const settings = bankSettings(map, protocolId, packCount);
        if (!settings.ok) throw new Error(settings.problem);
        expect(new Set(settings.addresses).size).toBe(packCount);
        const spread = Math.max(...settings.addresses) - Math.min(...settings.addresses);
        expect(spread).toBe(packCount - 1);
        // Whole patterns differ too: no two packs of a bank may be set alike.
        const patterns = settings.packs.map((pack) => JSON.stringify(pack.settings));
        expect(new Set(patterns).size).toBe(packCount);
      }),
    );
  });

  test("are read back off the switches as found, and not where a switch was not read", () => {
    const protocol = map.protocols[1]!;
    const found = (position: string): PackSettings => ({
      position: 1,
      settings: [{ switch: "levers", position }],
    });
    expect(addressOf(map, protocol, found("011000"))).toBe(6);
    expect(addressOf(map, protocol, found("01100"))).toBeUndefined();
    expect(addressOf(map, protocol, { position: 1, settings: [] })).toBeUndefined();
  });

  test("binary digits and their value are each other's inverse (base 2 of the language)", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 4095 }),
        fc.integer({ min: 1, max: 12 }),
        (value, levers) => {
          const digits = binaryDigits(value, levers);
          if (value >= 2 ** levers) {
            expect(digits).toBeUndefined();
            return;
          }
          const text = (digits ?? []).join("");
          expect([...text].reverse().join("")).toBe(value.toString(2).padStart(levers, "0"));
          const dip = { kind: "dip", id: "d", label: "d", levers, onIs: "up" } as const;
          expect(positionValue(dip, text, allLevers(levers))).toBe(value);
        },
      ),
    );
  });
});
