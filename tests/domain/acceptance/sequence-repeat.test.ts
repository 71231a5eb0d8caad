// "If any test indicates failure to comply, that test and any preceding test whose results may have
// been influenced by the fault are repeated after it has been put right" (IEC 60364-6 6.4.3.1, the
// sense from memory).
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { verdictForAnswer } from "../../../src/domain/acceptance/judge.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const done = { done: true };
const not = { done: false };
const continuity: Draft = { id: "continuity", kind: "confirm", title: "Continuity" };
const insulation: Draft = {
  ...{ id: "insulation", kind: "confirm", title: "Insulation" },
  onFailRepeat: ["continuity"],
};
const plan = planOf([continuity, insulation]);
const codeOf = (itemId: string, answers: Answer[], by = plan) =>
  verdictIn(by, itemId, answers).code;

const failedOnce = [answerAt(1, "continuity", done), answerAt(2, "insulation", not)];

describe("an item that a failure asks to be repeated", () => {
  test("is not met any more, and is told which test failed and when", () => {
    expect(verdictIn(plan, "continuity", failedOnce)).toMatchObject({
      outcome: "missing",
      clears: false,
      code: "repeat-after-failure",
      sentence:
        'Confirmed. "Insulation" failed after it, at 2026-11-25 09:02:00 (UTC), ' +
        "so it is to be repeated.",
      toClear: 'Put right what failed, repeat this, then repeat "Insulation".',
      answerId: "answer-continuity--1",
      attempts: 1,
    });
  });

  test.each<[string, Answer[], string]>([
    ["is met again once repeated", [...failedOnce, answerAt(3, "continuity", done)], "passed"],
    [
      "is not met by passing the other",
      [...failedOnce, answerAt(3, "insulation", done)],
      "repeat-after-failure",
    ],
    [
      "is to be repeated after a second failure too",
      [...failedOnce, answerAt(3, "continuity", done), answerAt(4, "insulation", not)],
      "repeat-after-failure",
    ],
    [
      "stays failed where it failed itself",
      [...failedOnce, answerAt(3, "continuity", not)],
      "failed",
    ],
    [
      "was not asked for by a failure before it",
      [answerAt(1, "insulation", not), answerAt(2, "continuity", done)],
      "passed",
    ],
    [
      "is asked for by a failure at the same time that came later",
      [answerAt(1, "continuity", done), answerAt(1, "insulation", not, { order: 2 })],
      "repeat-after-failure",
    ],
    ["is missing where there was no answer", [answerAt(2, "insulation", not)], "missing"],
  ])("%s", (_what, answers, code) => {
    expect(codeOf("continuity", answers)).toBe(code);
    expect(codeOf("continuity", answers.toReversed())).toBe(code);
  });

  test("keeps the verdict that its answer was given", () => {
    const [first] = failedOnce;
    const given = verdictForAnswer(plan, first!, [first!], contextOf());
    expect(verdictForAnswer(plan, first!, failedOnce, contextOf())).toEqual(given);
    expect(given).toMatchObject({ outcome: "pass", clears: true });
  });

  test("is met and marked where it is only marked", () => {
    const marked = planOf([{ ...continuity, sequence: "mark" }, insulation]);
    expect(verdictIn(marked, "continuity", failedOnce)).toMatchObject({
      ...{ outcome: "out-of-sequence", code: "repeat-after-failure", clears: true },
    });
    const again = [...failedOnce, answerAt(3, "insulation", done)];
    expect(codeOf("insulation", again, marked)).toBe("passed");
  });

  test("can be conceded, unless it is safety-critical", () => {
    const concessions = [{ id: "c", itemId: "continuity", subject: "", grantedBy: "person-2" }];
    const context = contextOf({ concessions });
    expect(verdictIn(plan, "continuity", failedOnce, context).code).toBe("conceded");
    const critical = planOf([{ ...continuity, safetyCritical: true }, insulation]);
    expect(verdictIn(critical, "continuity", failedOnce, context).clears).toBe(false);
  });
});

describe("the test that failed", () => {
  test("is out of sequence until what it repeats is repeated, in its `after` or not", () => {
    const again = answerAt(5, "insulation", done);
    expect(verdictIn(plan, "insulation", [...failedOnce, again])).toMatchObject({
      code: "out-of-sequence",
      sentence: 'Confirmed. Taken before "Continuity" was repeated, since "Insulation" failed.',
      toClear: 'Repeat "Continuity" first, then do this again.',
    });
    const repeated = [...failedOnce, answerAt(4, "continuity", done), again];
    expect(codeOf("insulation", repeated)).toBe("passed");
  });

  test("may be tried a first time without, and after a failure needs what it never had", () => {
    expect(codeOf("insulation", [answerAt(2, "insulation", done)])).toBe("passed");
    const twice = [answerAt(2, "insulation", not), answerAt(3, "insulation", done)];
    expect(codeOf("insulation", twice)).toBe("out-of-sequence");
  });

  test("counts as failed though it was out of sequence: a fault is a fault", () => {
    const ordered = planOf([
      continuity,
      { id: "polarity", kind: "confirm" },
      { ...insulation, after: ["polarity"] },
    ]);
    expect(codeOf("insulation", failedOnce, ordered)).toBe("out-of-sequence");
    expect(codeOf("continuity", failedOnce, ordered)).toBe("repeat-after-failure");
  });
});

test("what comes after a repeated item waits for it, and what came before stands", () => {
  const next = planOf([
    continuity,
    insulation,
    { id: "next", kind: "confirm", after: ["continuity"] },
  ]);
  const after = (minute: number, more: Answer[]) =>
    codeOf("next", [...more, answerAt(minute, "next", done)], next);
  const [first] = failedOnce;
  expect(after(3, failedOnce)).toBe("out-of-sequence");
  expect(after(4, [...failedOnce, answerAt(3, "continuity", done)])).toBe("passed");
  const between = { takenAt: "2026-11-25T09:01:30Z" };
  expect(codeOf("next", [first!, failedOnce[1]!, answerAt(9, "next", done, between)], next)).toBe(
    "passed",
  );
});
