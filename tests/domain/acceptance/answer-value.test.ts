import { describe, expect, test } from "vitest";
import { parseAnswerValue } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";

const ITEMS: Record<string, Draft> = {
  confirm: { kind: "confirm" },
  measure: { kind: "measure", unit: "V", limit: { min: 1 } },
  tighten: { kind: "tighten", points: 3, unit: "N·m", limit: { min: 1 } },
  count: { kind: "count", limit: { count: 4 } },
  choose: { kind: "choose", options: ["A", "B"] },
  identify: { kind: "identify", what: "firmware-level" },
  set: { kind: "set", positions: [{ switch: "dip/1", position: "on" }] },
  photo: { kind: "photo", photos: 1 },
  sign: { kind: "sign", whose: "customer" },
};
const itemOf = (kind: string) => planOf([{ id: "item", ...ITEMS[kind] }]).items[0]!.item;
const parsed = (kind: string, raw: unknown) => parseAnswerValue(itemOf(kind), raw);
const torque = (points: unknown, number: unknown = 6, unit: unknown = "N·m") => ({
  points,
  setting: { number, unit },
});

describe("a value is read as its item asks", () => {
  test.each<[string, unknown, object]>([
    ["confirm", { done: false }, { done: false }],
    ["measure", { number: 2.75, unit: "V" }, { number: 2.75, typed: "2.75 V" }],
    ["measure", { number: "2.750", unit: "V" }, { number: 2.75, typed: "2.750 V" }],
    ["measure", { number: "2,5", unit: "V" }, { number: 2.5, typed: "2.5 V" }],
    ["measure", { number: "2750", unit: "mV" }, { number: 2.75, typed: "2750 mV" }],
    ["measure", { number: "2.75", unit: "volts" }, { number: 2.75, typed: "2.75 V" }],
    ["measure", { number: "2.75 V", unit: "V" }, { number: 2.75, typed: "2.75 V" }],
    ["measure", { number: ">600", unit: "V" }, { number: 600, typed: ">600 V", qualifier: ">" }],
    ["measure", { number: "−5", unit: "V" }, { number: -5, typed: "-5 V" }],
    ["measure", { number: -0, unit: "V" }, { number: 0, typed: "0 V" }],
    ["measure", { number: 0.1, unit: "mV" }, { number: 0.0001, typed: "0.1 mV" }],
    ["tighten", torque([1, 2, 3]), { points: [1, 2, 3], setting: { number: 6, typed: "6 N·m" } }],
    ["tighten", torque([]), { points: [] }],
    ["count", { count: 0 }, { count: 0 }],
    ["choose", { choice: "B" }, { choice: "B" }],
    ["identify", { text: " 2.4.1 " }, { text: "2.4.1" }],
    ["set", { positions: { "dip/1": "off" } }, { positions: { "dip/1": "off" } }],
    ["set", { positions: {} }, { positions: {} }],
    ["photo", {}, { kind: "photo" }],
    ["sign", { name: " Wren Alder " }, { name: "Wren Alder" }],
  ])("%s %j", (kind, raw, expected) => {
    expect(parsed(kind, raw)).toMatchObject({ ok: true, value: { kind, ...expected } });
  });
});

describe("a value that cannot be read is refused with its place", () => {
  test.each<[string, unknown, string]>([
    ["confirm", undefined, ""],
    ["confirm", null, ""],
    ["confirm", [true], ""],
    ["confirm", "yes", ""],
    ["confirm", {}, "/done"],
    ["confirm", { done: "true" }, "/done"],
    ["confirm", { done: true, "a/b": 1 }, "/a~1b"],
    ["measure", { number: 5 }, "/unit"],
    ["measure", { number: 5, unit: "A" }, "/unit"],
    ["measure", { number: 5, unit: "stone" }, "/unit"],
    ["measure", { number: 5, unit: 5 }, "/unit"],
    ["measure", { unit: "V" }, "/number"],
    ["measure", { number: "", unit: "V" }, "/number"],
    ["measure", { number: "much", unit: "V" }, "/number"],
    ["measure", { number: "OL", unit: "V" }, "/number"],
    ["measure", { number: "1,500", unit: "V" }, "/number"],
    ["measure", { number: "2.75 A", unit: "V" }, "/number"],
    ["measure", { number: "2.75 mV", unit: "V" }, "/number"],
    ["measure", { number: Number.NaN, unit: "V" }, "/number"],
    ["measure", { number: Number.POSITIVE_INFINITY, unit: "V" }, "/number"],
    ["measure", { number: JSON.parse("1e400"), unit: "V" }, "/number"],
    ["measure", { number: "1e400", unit: "V" }, "/number"],
    ["measure", { number: 1e16, unit: "V" }, "/number"],
    ["measure", { number: "1.2345678901234567", unit: "V" }, "/number"],
    ["measure", { number: [5], unit: "V" }, "/number"],
    ["measure", { number: true, unit: "V" }, "/number"],
    ["measure", { number: {}, unit: "V" }, "/number"],
    ["tighten", { setting: { number: 6, unit: "N·m" } }, "/points"],
    ["tighten", torque("all"), "/points"],
    ["tighten", torque([1, 4]), "/points/1"],
    ["tighten", torque([0]), "/points/0"],
    ["tighten", torque([1.5]), "/points/0"],
    ["tighten", torque(["1"]), "/points/0"],
    ["tighten", torque([1, 2, 1]), "/points/2"],
    ["tighten", { points: [1] }, "/setting"],
    ["tighten", { points: [1], setting: 6 }, "/setting"],
    ["tighten", torque([1], "six"), "/setting/number"],
    ["tighten", torque([1], 6, "V"), "/setting/unit"],
    ["count", { count: 2.5 }, "/count"],
    ["count", { count: -1 }, "/count"],
    ["count", { count: "4" }, "/count"],
    ["count", { count: 100_001 }, "/count"],
    ["choose", { choice: "C" }, "/choice"],
    ["choose", { choice: ["A"] }, "/choice"],
    ["identify", { text: " " }, "/text"],
    ["identify", { text: "x".repeat(201) }, "/text"],
    ["set", { positions: ["on"] }, "/positions"],
    ["set", { positions: { "dip/2": "on" } }, "/positions/dip~12"],
    ["set", { positions: { "dip/1": 1 } }, "/positions/dip~11"],
    ["set", { positions: { "dip/1": "x".repeat(61) } }, "/positions/dip~11"],
    ["set", JSON.parse('{"positions": {"__proto__": "on"}}'), "/positions/__proto__"],
    ["set", { positions: { constructor: "on" } }, "/positions/constructor"],
    ["photo", { photo: "x" }, "/photo"],
    ["sign", { name: "" }, "/name"],
    ["sign", { name: "x".repeat(121) }, "/name"],
    ["sign", { name: "Wren", signature: "abc" }, "/signature"],
    ["sign", { name: "Wren", signature: ["a".repeat(64)] }, "/signature"],
  ])("%s %j at %s", (kind, raw, pointer) => {
    const result = parsed(kind, raw);
    expect(result).toMatchObject({ ok: false, pointer });
    expect(result.ok || result.problem).toMatch(/[.:]/);
  });

  test.each([
    [{ number: 5, unit: "A" }, "A does not measure this; it is read in V or a unit like it."],
    [{ number: 5, unit: "stone" }, '"stone" is no unit; this is read in V.'],
    [{ number: 5 }, "Name the unit, such as V."],
    [{ number: "2.75 mV", unit: "V" }, "The number says mV and the unit says V; give one of them."],
    [{ number: "1.2345678901234567", unit: "V" }, "A reading has at most 15 digits."],
  ])("%j: %s", (raw, problem) => {
    expect(parsed("measure", raw)).toMatchObject({ ok: false, problem });
  });
});
