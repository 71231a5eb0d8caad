// An answer that cannot be read as its item asks is refused before anything is stored, and the
// whole batch with it: the sender mends the place that the pointer names and sends the same ids
// again.
import { parseAnswerValue } from "../../domain/acceptance/answer.ts";
import type { CompiledPlan } from "../../domain/plan/compile.ts";
import type { JobContext } from "../../domain/plan/context.ts";
import { subjectsOf } from "../../domain/plan/subjects.ts";
import { type FieldError, Problem } from "../../errors.ts";
import type { NewAnswer } from "./schemas.ts";

/** How far ahead of this server's clock a tablet's may run. */
const CLOCK_LEAD_MS = 24 * 3_600_000;

export function refuseUnreadable(
  answers: readonly NewAnswer[],
  plan: CompiledPlan,
  context: JobContext,
): void {
  const errors = answers.flatMap((answer, index) =>
    faultsInAnswer(answer, plan, context).map(({ pointer, detail }) => ({
      pointer: `/body/answers/${index}${pointer}`,
      detail,
    })),
  );
  if (errors.length > 0) {
    const first = errors[0] as FieldError;
    throw new Problem("invalid-input", `${first.pointer}: ${first.detail}`, { errors });
  }
}

/** What keeps one answer from being read as its item asks, with the place in the answer. */
export function faultsInAnswer(
  answer: NewAnswer,
  plan: CompiledPlan,
  context: JobContext,
): FieldError[] {
  const compiled = plan.byId.get(answer.itemId);
  if (!compiled) {
    return [{ pointer: "/itemId", detail: `The plan of this job has no item "${answer.itemId}".` }];
  }
  const faults: FieldError[] = [];
  const subjects = subjectsOf(compiled.item, context).map((subject) => subject.key);
  if (!subjects.includes(answer.subject)) {
    const asked =
      subjects.length > 0 ? subjects.map((key) => `"${key}"`).join(", ") : "no unit yet";
    const detail = `"${compiled.item.title}" is asked for ${asked}, not for "${answer.subject}".`;
    faults.push({ pointer: "/subject", detail });
  }
  if (Date.parse(answer.takenAt) > Date.parse(context.now) + CLOCK_LEAD_MS) {
    faults.push({
      pointer: "/takenAt",
      detail: "lies more than a day in the future; check the clock",
    });
  }
  if (
    answer.instrumentId !== undefined &&
    !context.instruments.some((instrument) => instrument.id === answer.instrumentId)
  ) {
    faults.push({ pointer: "/instrumentId", detail: "There is no such instrument in your firm." });
  }
  const read = parseAnswerValue(compiled.item, answer.value);
  if (!read.ok) faults.push({ pointer: `/value${read.pointer}`, detail: read.problem });
  return faults;
}
