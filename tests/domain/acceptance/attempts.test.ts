// Attempts are kept, the last one decides, and what is said of an earlier one stays.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { verdictForAnswer } from "../../../src/domain/acceptance/judge.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const done = { done: true };
const volts = (number: number) => ({ number, unit: "V" });

const codeOf = (
  items: Draft[],
  itemId: string,
  answers: Answer[],
  more = contextOf(),
  subject = "",
) => verdictIn(planOf(items), itemId, answers, more, subject).code;

describe("the verdict on an earlier attempt stays what it was", () => {
  const plan = planOf([{ id: "volts", kind: "measure", unit: "V", limit: { min: 38 } }]);
  const low = answerAt(1, "volts", volts(36.9));
  const high = answerAt(2, "volts", volts(39));

  test("attempts are counted, the last one decides, and each keeps its own", () => {
    expect(verdictIn(plan, "volts", [high, low])).toMatchObject({
      outcome: "pass",
      attempts: 2,
      answerId: high.id,
    });
    expect(verdictForAnswer(plan, low, [low, high], contextOf())).toMatchObject({
      outcome: "fail",
      attempts: 1,
    });
    expect(verdictForAnswer(plan, high, [low, high], contextOf())).toMatchObject({
      outcome: "pass",
      attempts: 2,
    });
  });

  test("an answer is judged whether or not it is among the others already", () => {
    expect(verdictForAnswer(plan, high, [low], contextOf())).toMatchObject({
      attempts: 2,
      outcome: "pass",
    });
    const copy = structuredClone(high);
    expect(verdictForAnswer(plan, copy, [low, high], contextOf())).toMatchObject({ attempts: 2 });
  });

  test("there is none on an item or subject that the plan does not ask for", () => {
    const other = answerAt(1, "amps", volts(1));
    expect(verdictForAnswer(plan, other, [], contextOf())).toBeUndefined();
    const elsewhere = answerAt(1, "volts", volts(1), { subject: "pack-1" });
    expect(verdictForAnswer(plan, elsewhere, [], contextOf())).toBeUndefined();
  });

  test("nor is it changed by a later answer that decides whether another item applies", () => {
    const items = [
      { id: "heater", kind: "confirm" },
      { id: "heater_wired", kind: "confirm", appliesWhen: "answers.heater" },
      { id: "closed", kind: "confirm", after: ["heater_wired"] },
    ];
    const answers = [answerAt(1, "heater", done), answerAt(2, "closed", done)];
    expect(codeOf(items, "closed", answers)).toBe("out-of-sequence");
    const later = [...answers, answerAt(3, "heater", { done: false })];
    expect(codeOf(items, "closed", later)).toBe("out-of-sequence");
  });
});
