import { describe, expect, test } from "vitest";
import { PRACTICE_PLAN } from "../closeout/practice-plan.ts";
import { faultsOfItem, MEASURE, sentenceOf } from "./faulty-items.ts";
import { CONFIRM, type Draft, draftPlan, faultsOf } from "./small-plan.ts";

describe("a plan is accepted", () => {
  test("when every item is right", () => {
    expect(faultsOf(PRACTICE_PLAN)).toEqual([]);
  });

  test.each<[string, Draft]>([
    ["min and max alike", { limit: { min: 5, max: 5 } }],
    ["one bound", { limit: { above: 5 } }],
    ["a tolerance of nothing", { limit: { nominal: 5, tolerance: { absolute: 0 } } }],
    ["a bound worked out", { limit: { max: { cel: "count.batteryPack * 60" } } }],
    ["an expression", { limit: { expression: "value > 3 && value < 4" } }],
    ["a decision rule of its own", { decisionRule: "four-way" }],
    ["nine repeats", { repeat: { times: 9 } }],
  ])("with %s", (_what, more) => {
    expect(faultsOfItem({ ...MEASURE, ...more })).toEqual([]);
  });
});

describe("a shape that is no plan/1 is refused with its place", () => {
  test.each<[string, unknown, string]>([
    ["nothing", undefined, " shape"],
    ["a text", "plan", " shape"],
    ["another schema", draftPlan([CONFIRM], { schema: "plan/2" }), "/schema shape"],
    ["no stage", draftPlan([], { stages: [] }), "/stages shape"],
    ["a stage without items", draftPlan([]), "/stages/0/items shape"],
    ["a field that is none", draftPlan([CONFIRM], { "a/b~c": 1 }), "/a~1b~0c shape"],
    [
      "a kind that is none",
      draftPlan([{ ...CONFIRM, kind: "weigh" }]),
      "/stages/0/items/0/kind shape",
    ],
    ["an id in capitals", draftPlan([{ ...CONFIRM, id: "Done" }]), "/stages/0/items/0/id shape"],
    [
      "an id of 49 letters",
      draftPlan([{ ...CONFIRM, id: "a".repeat(49) }]),
      "/stages/0/items/0/id shape",
    ],
    [
      "no hold point said",
      draftPlan([{ ...CONFIRM, holdPoint: undefined }]),
      "/stages/0/items/0/holdPoint shape",
    ],
    ["__proto__ as a field", JSON.parse('{"__proto__": {"schema": "plan/1"}}'), " shape"],
  ])("%s", (_what, document, expected) => {
    expect(faultsOf(document)).toContain(expected);
  });

  test.each<[string, Draft, string]>([
    ["a limit without bounds", { limit: {} }, "…/limit shape"],
    ["min and above", { limit: { min: 1, above: 2 } }, "…/limit shape"],
    ["max and below", { limit: { max: 1, below: 2 } }, "…/limit shape"],
    ["a bound in words", { limit: { min: "many" } }, "…/limit/min shape"],
    [
      "a negative tolerance",
      { limit: { nominal: 5, tolerance: { absolute: -1 } } },
      "…/limit/tolerance/absolute shape",
    ],
    [
      "a tolerance without basis",
      { limit: { nominal: 5, tolerance: 4 } },
      "…/limit/tolerance shape",
    ],
    ["a list of readings", { limit: { oneOf: [230] } }, "…/limit/oneOf shape"],
    ["no limit", { limit: undefined }, "…/limit shape"],
    ["201 repeats", { repeat: { times: 201 } }, "…/repeat/times shape"],
    ["no repeat", { repeat: { times: 0 } }, "…/repeat/times shape"],
    ["a rule that is none", { decisionRule: "kind" }, "…/decisionRule shape"],
  ])("%s", (_what, more, expected) => {
    expect(faultsOfItem({ ...MEASURE, ...more })).toContain(expected);
  });

  test("what is missing and what is too much are told in plain words", () => {
    const { title: _title, ...untitled } = CONFIRM;
    expect(sentenceOf(draftPlan([untitled]))).toBe("This is missing; it is a string.");
    expect(sentenceOf(draftPlan([{ ...CONFIRM, colour: "red" }]))).toBe(
      '"colour" is not a field here.',
    );
  });
});
