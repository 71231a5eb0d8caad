// Requirement: a torque tool is due after so many cycles since its last passed calibration, where
// that comes before its day (ISO 6789-1:2017 5.3, from memory). Every fastener of a tightening is
// one cycle, in every attempt. The cycle that reaches the limit is the last one in: of 5,000 the
// 5,000th counts, the 5,001st does not, and an answer whose fasteners go past it counts in no part.
//
// A verdict must not change when other jobs send their work later. So each use carries the receipt
// order from which on it was known to this job, and an answer is judged by the uses known before it
// of days up to its own: the count stays the one that it was judged by. Within a day all known uses
// count, since the clocks of two tablets cannot be compared to the minute.

import { localDay } from "../dates/zone-time.ts";
import type { InstrumentFacts, InstrumentUse, JobContext } from "../plan/context.ts";
import type { Answer } from "./answer.ts";
import { type InstrumentState, unfit } from "./instrument-state.ts";

/** When a tool is used: RFC 3339 with the place's offset, and the place in order of receipt. */
export type Moment = Pick<Answer, "takenAt" | "order">;

/** The fasteners that an answer's raw value says were tightened; 0 for any other value. */
export function cyclesOf(value: unknown): number {
  if (typeof value !== "object" || value === null || !("points" in value)) return 0;
  return Array.isArray(value.points) ? value.points.length : 0;
}

/** Cycles of the tool before a moment, since its last passed calibration at that time. */
export function cyclesBefore(tool: InstrumentFacts, moment: Moment, timeZone: string): number {
  const day = localDay(moment.takenAt, timeZone);
  const since = lastPassed(tool, day) ?? "";
  const written = moment.takenAt.slice(0, 10);
  let cycles = 0;
  for (const use of tool.uses ?? []) {
    const isBefore = use.day <= written || use.day <= day;
    if (isBefore && use.day >= since && use.fromOrder <= moment.order) cycles += use.cycles;
  }
  return cycles;
}

/** Whether the tool was still in its cycles at a moment, with `cycles` more counted in. */
export function stateByCycles(
  tool: InstrumentFacts,
  moment: Moment,
  cycles: number,
  timeZone: string,
): InstrumentState {
  const { intervalCycles, reference } = tool;
  if (intervalCycles === undefined) return { fit: true };
  const done = cyclesBefore(tool, moment, timeZone) + cycles;
  if (done <= intervalCycles) return { fit: true };
  return unfit(
    "instrument-out-of-cycles",
    `${reference} was due for calibration after ${intervalCycles} cycles; this makes ${done}.`,
    "Tighten again with a tool in calibration, or enter the calibration that it had.",
  );
}

/**
 * The context with this job's own uses counted in that it does not hold yet: those of a batch that
 * is judged before it is stored, or of answers that only a tablet has.
 */
export function withOwnUses(context: JobContext, answers: readonly Answer[]): JobContext {
  const instruments = context.instruments.map((instrument) => {
    if (instrument.intervalCycles === undefined) return instrument;
    const own = answers.flatMap((answer) => ownUse(instrument, answer));
    return { ...instrument, uses: [...(instrument.uses ?? []), ...own] };
  });
  return { ...context, instruments };
}

function ownUse({ id, usesThrough = -1 }: InstrumentFacts, answer: Answer): InstrumentUse[] {
  if (answer.instrumentId !== id || answer.order <= usesThrough) return [];
  const day = answer.takenAt.slice(0, 10);
  return [{ day, cycles: cyclesOf(answer.value), fromOrder: answer.order + 1 }];
}

function lastPassed({ calibrations }: InstrumentFacts, day: string): string | undefined {
  let last: string | undefined;
  for (const { on, passed } of calibrations) {
    if (passed && on <= day && (last === undefined || on > last)) last = on;
  }
  return last;
}
