// What a person is told whose answer cannot be read, and the largest that still can be. The limits
// are our own choice; a SHA-256 has 64 hexadecimal digits (FIPS 180-4).
import { describe, expect, test } from "vitest";
import { parseAnswerValue } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";

const switches = ["dip 1", "rotary"].map((name) => ({ switch: name, position: "on" }));
const ITEMS: Record<string, Draft> = {
  confirm: { kind: "confirm" },
  measure: { kind: "measure", unit: "V", limit: { min: 1 } },
  temperature: { kind: "measure", unit: "°F", limit: { min: 1 } },
  tighten: { kind: "tighten", points: 3, unit: "N·m", limit: { min: 1 } },
  count: { kind: "count", limit: { count: 4 } },
  choose: { kind: "choose", options: ["A", "B"] },
  identify: { kind: "identify", what: "firmware-level" },
  set: { kind: "set", positions: switches },
  photo: { kind: "photo", photos: 1 },
  sign: { kind: "sign", whose: "customer" },
};
const parsed = (kind: string, raw: unknown) =>
  parseAnswerValue(planOf([{ id: "item", title: "Step", ...ITEMS[kind] }]).items[0]!.item, raw);
const torque = (points: unknown, number: unknown = 6, unit: unknown = "N·m") => ({
  points,
  setting: { number, unit },
});

describe("what cannot be read is refused with what would be", () => {
  const noFastener = (which: string) => `There is no fastener ${which}; they run from 1 to 3.`;
  const positions = "Give the position of each switch by its name.";
  const noSwitch = (name: string) => `There is no switch "${name}" here; there are dip 1, rotary.`;
  const text = "Type or scan what stands on the unit, at most 200 characters.";
  const name = "Write the name of who signs, at most 120 characters.";
  const signature = "The signature is the SHA-256 of its picture.";
  const setting = "Give what the wrench was set to, in N·m.";
  const tooLarge = "The number is beyond what any instrument reads: check it and its unit.";
  const number = "Give the reading as a number, such as 2.75.";

  test.each<[string, unknown, string, string]>([
    ["confirm", [], "", "The value must be an object."],
    ["confirm", {}, "/done", "Say whether it is done: true or false."],
    ["confirm", { done: true, by: "me" }, "/by", '"Step" takes done.'],
    ["measure", { number: 5, unit: "V", at: 1 }, "/at", '"Step" takes number and unit.'],
    ["photo", { photo: "x" }, "/photo", '"Step" takes no value.'],
    ["measure", { number: null, unit: "V" }, "/number", number],
    [
      "measure",
      { number: 5, unit: "volts per fortnight" },
      "/unit",
      '"volts per fortnight" is no unit; this is read in V.',
    ],
    [
      "measure",
      { number: 5, unit: "volts in the evening and later" },
      "/unit",
      '"volts in the evening" is no unit; this is read in V.',
    ],
    [
      "measure",
      { number: "2.75 A", unit: "V" },
      "/number",
      "A is a unit of current; what is asked for is voltage.",
    ],
    ["measure", { number: 1.1e15, unit: "V" }, "/number", tooLarge],
    ["measure", { number: -1.1e15, unit: "V" }, "/number", tooLarge],
    ["tighten", torque("all"), "/points", "List the fasteners tightened, from 1 to 3."],
    ["tighten", torque([1, 4]), "/points/1", noFastener("4")],
    ["tighten", torque([0]), "/points/0", noFastener("0")],
    ["tighten", torque([1.5]), "/points/0", noFastener("1.5")],
    ["tighten", torque(["1"]), "/points/0", noFastener("of that name")],
    ["tighten", torque([1, 2, 1]), "/points/2", "Fastener 1 is listed twice."],
    ["tighten", { points: [1] }, "/setting", setting],
    ["tighten", { points: [1], setting: null }, "/setting", setting],
    ["tighten", torque([1], null), "/setting/number", number],
    ["count", { count: -1 }, "/count", "A count is a whole number from 0 to 100000."],
    ["choose", { choice: "C" }, "/choice", "Choose one of: A, B."],
    ["identify", { text: " " }, "/text", text],
    ["identify", { text: 7 }, "/text", text],
    ["set", { positions: [] }, "/positions", positions],
    ["set", { positions: null }, "/positions", positions],
    ["set", {}, "/positions", positions],
    ["set", { positions: { dial: "on" } }, "/positions/dial", noSwitch("dial")],
    [
      "set",
      { positions: { ["d".repeat(70)]: "on" } },
      `/positions/${"d".repeat(70)}`,
      noSwitch("d".repeat(60)),
    ],
    [
      "set",
      { positions: { rotary: 1 } },
      "/positions/rotary",
      "A position is a text of at most 60 characters.",
    ],
    ["sign", { name: " " }, "/name", name],
    ["sign", {}, "/name", name],
    ["sign", { name: "Wren", signature: 5 }, "/signature", signature],
    ["sign", { name: "Wren", signature: "A".repeat(64) }, "/signature", signature],
    ["sign", { name: "Wren", signature: "a".repeat(63) }, "/signature", signature],
    ["sign", { name: "Wren", signature: "a".repeat(65) }, "/signature", signature],
    ["sign", { name: "Wren", signature: `-${"a".repeat(64)}` }, "/signature", signature],
  ])("%s %j at %s: %s", (kind, raw, pointer, problem) => {
    expect(parsed(kind, raw)).toEqual({ ok: false, pointer, problem });
  });
});

describe("what is still taken", () => {
  test.each<[string, object, object]>([
    ["measure", { number: 1e15, unit: "V" }, { number: 1e15, typed: "1000000000000000 V" }],
    ["measure", { number: -1e15, unit: "V" }, { number: -1e15, typed: "-1000000000000000 V" }],
    ["temperature", { number: "5 F", unit: "°F" }, { number: 5, typed: "5 °F" }],
    ["measure", { number: "1.23456789012345", unit: "V" }, { number: 1.23456789012345 }],
    ["measure", { number: "-1.23456789012345", unit: "V" }, { number: -1.23456789012345 }],
    ["measure", { number: "0.00123456789012345", unit: "V" }, { number: 0.00123456789012345 }],
    ["count", { count: 100_000 }, { count: 100_000 }],
    ["identify", { text: "x".repeat(200) }, { text: "x".repeat(200) }],
    ["set", { positions: { rotary: "x".repeat(60) } }, { positions: { rotary: "x".repeat(60) } }],
    ["sign", { name: "x".repeat(120) }, { name: "x".repeat(120) }],
  ])("%s %j", (kind, raw, value) => {
    expect(parsed(kind, raw)).toMatchObject({ ok: true, value });
  });

  test.each<[string, object]>([
    ["measure", { number: "1.234567890123456", unit: "V" }],
    ["measure", { number: "1.000000000000001", unit: "V" }],
    ["measure", { number: "120000000000000.5", unit: "V" }],
  ])("and no more: %s %j", (kind, raw) => {
    const problem = "A reading has at most 15 digits.";
    expect(parsed(kind, raw)).toEqual({ ok: false, pointer: "/number", problem });
  });
});

test("blanks around a position and a signature's name are dropped, and the picture is kept", () => {
  const read = parsed("set", { positions: { rotary: " 3 " } });
  expect(read).toMatchObject({ ok: true, value: { positions: { rotary: "3" } } });
  const signature = "0123456789abcdef".repeat(4);
  expect(parsed("sign", { name: " Wren ", signature })).toEqual({
    ok: true,
    value: { kind: "sign", name: "Wren", signature },
  });
  expect(parsed("sign", { name: " Wren " })).toStrictEqual({
    ok: true,
    value: { kind: "sign", name: "Wren" },
  });
});

test("a reading within the range has no sign of one beyond it", () => {
  expect(parsed("measure", { number: "5", unit: "V" })).toStrictEqual({
    ok: true,
    value: { kind: "measure", number: 5, typed: "5 V" },
  });
});
