// A job on which one torque tool is used, for tests of its cycles.
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { verdictForAnswer } from "../../../src/domain/acceptance/judge.ts";
import type { InstrumentFacts, InstrumentUse } from "../../../src/domain/plan/context.ts";
import { planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, WRENCH } from "./judged.ts";

export const PLAN = planOf([
  { id: "bolts", kind: "tighten", points: 8, unit: "N·m", limit: { min: 5, max: 7 } },
  { id: "screws", kind: "tighten", points: 8, unit: "N·m", limit: { min: 5, max: 7 } },
]);
export const TOOL: InstrumentFacts = { ...WRENCH, intervalCycles: 5000 };
export const DAY = "2026-11-25";

export const use = (day: string, cycles: number, fromOrder = 0): InstrumentUse => ({
  day,
  cycles,
  fromOrder,
});

export const tightened = (fasteners: number) => ({
  points: Array.from({ length: fasteners }, (_, index) => index + 1),
  setting: { number: 6, unit: "N·m" },
});

export const tighten = (
  minute: number,
  fasteners = 8,
  more: Partial<Answer> = {},
  itemId = "bolts",
) => answerAt(minute, itemId, tightened(fasteners), { instrumentId: "wrench", ...more });

/** The code of the verdict on each answer, all handed in together. */
export function codes(
  answers: Answer[],
  tool: Partial<InstrumentFacts> = {},
): (string | undefined)[] {
  const context = contextOf({ instruments: [{ ...TOOL, ...tool }] });
  return answers.map((answer) => verdictForAnswer(PLAN, answer, answers, context)?.code);
}
