import { describe, expect, test } from "vitest";
import { parseSwitchMap } from "../../../src/domain/bank/parse-switch-map.ts";
import { binaryProtocol, mapInput, rotaryProtocol, rowsProtocol } from "./sample-map.ts";

const problemOf = (input: unknown): string => {
  const parsed = parseSwitchMap(input);
  return parsed.ok ? "" : parsed.problem;
};
const formula = (parts: readonly object[]) => ({
  ...rotaryProtocol,
  settings: { form: "formula", parts },
});
const levers = { switch: "levers", rule: { by: "fixed", position: "000000" } };
const end = { switch: "end", rule: { by: "ends", which: "last" } };
const dial = { switch: "dial", rule: { by: "position", add: -1 } };
const refuse = (protocol: object) => problemOf({ ...mapInput(), protocols: [protocol] });

describe("switch-map/1", () => {
  test("the sample map is sound", () => {
    expect(problemOf(mapInput())).toBe("");
  });

  test.each([
    [
      "gives every pack one address",
      refuse(formula([{ switch: "dial", rule: { by: "fixed", position: "3" } }, levers, end])),
      "2 packs: Packs 1 and 2 all have address 3.",
    ],
    [
      "runs out of positions on the dial",
      refuse(formula([{ switch: "dial", rule: { by: "position", add: 0 } }, levers, end])),
      "16 packs: pack 16: Address cannot show 16",
    ],
    [
      "would need a position below nought",
      refuse(formula([{ switch: "dial", rule: { by: "position", add: -2 } }, levers, end])),
      "pack 1: Address cannot show -1",
    ],
    ["does not set a switch", refuse(formula([dial, levers])), "end: is set by 0 parts"],
    ["sets a switch twice", refuse(formula([dial, dial, levers, end])), "dial: is set by 2 parts"],
    [
      "leaves a lever out",
      refuse(
        formula([
          dial,
          { switch: "levers", levers: [1, 2, 3, 4, 5], rule: { by: "fixed", position: "00000" } },
          end,
        ]),
      ),
      "lever 6 is not set exactly once",
    ],
    [
      "sets a lever that is not there",
      refuse(
        formula([
          dial,
          levers,
          { switch: "levers", levers: [7], rule: { by: "ends", which: "last" } },
          end,
        ]),
      ),
      "lever 7 is not set exactly once",
    ],
    [
      "fixes too few digits",
      refuse(formula([dial, { switch: "levers", rule: { by: "fixed", position: "0" } }, end])),
      "is not one digit for each of 6 levers",
    ],
    [
      "names a switch that it does not have",
      refuse(
        formula([dial, levers, end, { switch: "ghost", rule: { by: "ends", which: "last" } }]),
      ),
      "names the switch ghost",
    ],
    [
      "counts from many to few",
      refuse({ ...rotaryProtocol, packCount: { minimum: 4, maximum: 2 } }),
      "runs from 4 down to 2",
    ],
    [
      "reads its address from a lever that is not there",
      refuse({ ...binaryProtocol, address: { switch: "levers", levers: [1, 2, 3, 9] } }),
      "does not have the address levers",
    ],
    [
      "has no row for the fifth pack",
      refuse({ ...rowsProtocol, packCount: { minimum: 2, maximum: 5 } }),
      "5 packs: pack 5 has 0 rows",
    ],
    ["takes no switches", problemOf({ ...mapInput(), switches: [] }), "switches"],
    [
      "names two protocols alike",
      problemOf(mapInput(rotaryProtocol, rotaryProtocol)),
      "named twice",
    ],
  ])("a map that %s is refused, and says so", (_case, problem, words) => {
    expect(problem).toContain(words);
  });

  test("rows for different bank sizes may set the same pack differently", () => {
    const row = (position: number, dialPosition: string, minimum: number, maximum: number) => ({
      position,
      packCount: { minimum, maximum },
      settings: { dial: dialPosition, levers: "000000", end: "off" },
    });
    const rows = [row(1, "0", 1, 1), row(1, "1", 2, 2), row(2, "2", 2, 2)];
    const protocol = {
      ...rowsProtocol,
      packCount: { minimum: 1, maximum: 2 },
      settings: { form: "rows", rows },
    };
    expect(refuse(protocol)).toBe("");
    const doubled = { ...protocol, settings: { form: "rows", rows: [...rows, rows[0]] } };
    expect(refuse(doubled)).toContain("1 packs: pack 1 has 2 rows");
  });

  test("a gap between addresses is refused unless the protocol allows it", () => {
    const rows = [1, 2].map((position) => ({
      position,
      settings: { dial: position === 1 ? "0" : "8", levers: "000000", end: "off" },
    }));
    const protocol = {
      ...rowsProtocol,
      packCount: { minimum: 2, maximum: 2 },
      settings: { form: "rows", rows },
    };
    expect(refuse(protocol)).toContain("No pack has address 1, between pack 1 (address 0)");
    expect(refuse({ ...protocol, gapsAllowed: true })).toBe("");
  });
});
