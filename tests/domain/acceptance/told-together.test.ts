// Which of several things wrong with one answer is told, and what was found that stays beside it.
// What counts first is our choice; decision rules: ILAC-G8:09/2019 4.2.
import { describe, expect, test } from "vitest";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, METER, verdictIn, verdictOn } from "./judged.ts";

const done = { done: true };
const not = { done: false };
const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });
const measure: Draft = { kind: "measure", unit: "V", limit: { min: 38 } };
const volts = (number: number) => ({ number, unit: "V" });

describe("of one answer", () => {
  test("that it cannot be read comes before that it was out of sequence", () => {
    const plan = planOf([item("a"), item("x", { after: ["a"] })]);
    expect(verdictIn(plan, "x", [answerAt(1, "x", { done: "yes" })])).toMatchObject({
      code: "unreadable",
      sentence: "Say whether it is done: true or false.",
    });
  });

  test("that no instrument is named comes before that its accuracy is not known", () => {
    const guarded = { ...measure, decisionRule: "guarded", instrument: { class: "multimeter" } };
    expect(verdictOn(guarded, volts(39))).toMatchObject({
      ...{ outcome: "missing", code: "instrument-missing" },
      sentence:
        "Read 39 V; needed at least 38 V. This plan counts the instrument's accuracy, " +
        "which is not known. No instrument is named; this is read with a multimeter.",
    });
  });

  test("that it failed comes before that another test's failure asks for it again", () => {
    const items = [item("a"), item("b", { onFailRepeat: ["a"] })];
    const answers = [answerAt(1, "a", not), answerAt(2, "b", not)];
    expect(verdictIn(planOf(items), "a", answers)).toMatchObject({
      ...{ code: "failed", sentence: "Marked as not done." },
    });
  });
});

describe("beside another reason", () => {
  test("the reading, what was needed and the risk stay", () => {
    const stale = { ...METER, calibrations: [] };
    const verdict = verdictOn({ ...measure, instrument: { class: "multimeter" } }, volts(38), {
      answer: { instrumentId: "meter" },
      context: { instruments: [stale] },
    });
    expect(verdict).toMatchObject({
      code: "instrument-out-of-calibration",
      reading: { number: 38, unit: "V", uncertainty: 0.39 },
      needed: "at least 38 V",
      // A reading on the limit lies beyond it as often as not: JCGM 106:2012, 7.4.
      risk: 0.5,
    });
  });

  test("nothing stays where nothing was measured", () => {
    const plan = planOf([item("a"), item("x", { after: ["a"] })]);
    expect(verdictIn(plan, "x", [answerAt(1, "x", done)])).toStrictEqual({
      ...{ outcome: "out-of-sequence", clears: false, code: "out-of-sequence" },
      sentence: 'Confirmed. Taken before "a" was met.',
      toClear: 'Meet "a" first, then do this again.',
      ...{ attempts: 1, answerId: "answer-x--1" },
    });
  });
});

describe("an item without an answer says what it will need", () => {
  const choose = { kind: "choose", options: ["A", "B"] };
  test.each<[Draft, string, string]>([
    [{ kind: "confirm" }, "There is no answer yet.", "Do x"],
    [
      { kind: "confirm", toClear: "Ring the office." },
      "There is no answer yet.",
      "Ring the office.",
    ],
    [choose, "There is no answer yet.", "Do x"],
    [{ ...choose, limit: { oneOf: ["A"] } }, "There is no answer yet.", "Do x"],
    [measure, "There is no answer yet; needed at least 38 V.", "Do x"],
    [{ kind: "count", limit: { min: 4 } }, "There is no answer yet; needed at least 4.", "Do x"],
    [
      { ...measure, limit: { min: { cel: "1 / 0" } }, toClear: "Ring the office." },
      "There is no answer yet.",
      "Ring the office.",
    ],
  ])("%j: %s", (more, sentence, toClear) => {
    expect(verdictIn(planOf([item("x", more)]), "x", [])).toMatchObject({
      ...{ outcome: "missing", clears: false, code: "missing", sentence, toClear, attempts: 0 },
    });
  });
});

test("a limit over every pack's reading is not worked out while one has none", () => {
  const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
  const within = { expression: "!(value > lowest(readings.each) + 0.5)" };
  const plan = planOf([
    item("each", { ...measure, ...perPack }),
    item("all", { ...measure, limit: within, sequence: "mark" }),
  ]);
  const each = (subject: string) => answerAt(1, "each", volts(50), { subject });
  const code = (...packs: string[]) =>
    verdictIn(plan, "all", [...packs.map(each), answerAt(2, "all", volts(50))], contextOf()).code;
  expect(code("pack-1", "pack-2")).toBe("passed");
  expect(code("pack-1")).toBe("limit-not-computable");
});
