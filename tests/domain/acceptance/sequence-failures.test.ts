// Which failures ask for which repetitions (IEC 60364-6 6.4.3.1, from memory). What counts as a
// failure under four ways: ILAC-G8:09/2019, 4.2.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, METER, verdictIn } from "./judged.ts";

const done = { done: true };
const not = { done: false };
const continuity: Draft = { id: "continuity", kind: "confirm", title: "Continuity" };
const insulation: Draft = {
  ...{ id: "insulation", kind: "confirm", title: "Insulation" },
  onFailRepeat: ["continuity"],
};

describe("per unit", () => {
  const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
  const pass = ["pack-1", "pack-2"].map((subject, index) =>
    answerAt(index + 1, "continuity", done, { subject }),
  );
  const codes = (items: Draft[], failure: Answer) =>
    ["pack-1", "pack-2"].map(
      (subject) =>
        verdictIn(planOf(items), "continuity", [...pass, failure], contextOf(), subject).code,
    );

  test("a failure asks for its own unit's", () => {
    const items = [
      { ...continuity, ...perPack },
      { ...insulation, ...perPack },
    ];
    const failure = answerAt(5, "insulation", not, { subject: "pack-2" });
    expect(codes(items, failure)).toEqual(["passed", "repeat-after-failure"]);
    const gone = answerAt(5, "insulation", not, { subject: "pack-9" });
    expect(codes(items, gone)).toEqual(["passed", "passed"]);
  });

  test("a failure of what is asked once asks for all", () => {
    const failure = answerAt(5, "insulation", not);
    expect(codes([{ ...continuity, ...perPack }, insulation], failure)).toEqual([
      "repeat-after-failure",
      "repeat-after-failure",
    ]);
  });

  test("any unit's failure asks for what is asked once, and is named with its unit", () => {
    const items = planOf([continuity, { ...insulation, ...perPack }]);
    const failure = answerAt(5, "insulation", not, { subject: "pack-2" });
    const verdict = verdictIn(items, "continuity", [answerAt(1, "continuity", done), failure]);
    expect(verdict.code).toBe("repeat-after-failure");
    expect(verdict.sentence).toContain('"Insulation" (KESTREL-5 KH00002) failed after it');
  });
});

describe("what counts as a failure", () => {
  const measure: Draft = {
    ...{ id: "insulation", kind: "measure", unit: "V", onFailRepeat: ["continuity"] },
  };
  const meter = { ...METER, accuracy: { digits: 10 }, resolution: { step: 0.1, unit: "V" } };
  const context = contextOf({ instruments: [meter] });
  const after = (item: Draft, value: object) => {
    const reading = answerAt(2, "insulation", value, { instrumentId: "meter" });
    const both = planOf([continuity, { ...measure, ...item }]);
    const answers = [answerAt(1, "continuity", done), reading];
    return [
      verdictIn(both, "insulation", answers, context).code,
      verdictIn(both, "continuity", answers, context).code,
    ];
  };

  // U is 10 digits of 0.1 V: 1 V; the limit is 40 V at least.
  test.each([
    ["simple", 39.9, "failed", "repeat-after-failure"],
    ["simple", 40, "passed", "passed"],
    ["guarded", 39.9, "failed", "repeat-after-failure"],
    ["guarded", 40, "guard-band", "passed"],
    ["guarded", 41, "passed", "passed"],
    ["four-way", 38.9, "failed", "repeat-after-failure"],
    ["four-way", 39, "conditional-fail", "repeat-after-failure"],
    ["four-way", 39.9, "conditional-fail", "repeat-after-failure"],
    ["four-way", 40, "conditional-pass", "passed"],
    ["four-way", 41, "passed", "passed"],
  ])("%s, %d V: %s", (decisionRule, number, code, standing) => {
    const item = { decisionRule, limit: { min: 40 } };
    expect(after(item, { number, unit: "V" })).toEqual([code, standing]);
  });

  test("not a limit that cannot be worked out: nothing was compared", () => {
    const unknown = { limit: { min: { cel: "answers.other" } } };
    const other = { id: "other", kind: "measure", unit: "V", limit: { min: 1 }, holdPoint: false };
    const items = planOf([continuity, other, { ...measure, ...unknown }]);
    const reading = answerAt(2, "insulation", { number: 1, unit: "V" });
    const answers = [answerAt(1, "continuity", done), reading];
    expect(verdictIn(items, "continuity", answers).code).toBe("passed");
  });
});
