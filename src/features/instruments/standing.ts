// How an instrument stands at this moment where the firm is: what the rules would say of a reading
// taken with it now.
import { instrumentState } from "../../domain/acceptance/calibration.ts";
import { cyclesBefore, stateByCycles } from "../../domain/acceptance/torque-cycles.ts";
import {
  accuracyWarning,
  isTorqueTool,
  type TorqueTool,
} from "../../domain/acceptance/torque-tool.ts";
import type { InstrumentEventFacts, InstrumentFacts } from "../../domain/plan/context.ts";
import type { InstrumentRow } from "./store.ts";

export interface Here {
  now: Date;
  timeZone: string;
}

export function standingOf(row: InstrumentRow, { now, timeZone }: Here) {
  const facts = factsOf(row);
  const moment = { takenAt: now.toISOString(), order: Number.MAX_SAFE_INTEGER };
  const counts = isTorqueTool(facts.class);
  const done = counts ? cyclesBefore(facts, moment, timeZone) : null;
  const limit = facts.intervalCycles;
  const byDates = instrumentState(facts, undefined, moment.takenAt, timeZone);
  const state = byDates.fit ? stateByCycles(facts, moment, counts ? 1 : 0, timeZone) : byDates;
  return {
    cyclesSinceCalibration: done,
    cyclesLeft: done === null || limit === undefined ? null : Math.max(0, limit - done),
    fitNow: state.fit,
    reason: state.fit
      ? null
      : { code: state.code, sentence: state.sentence, toClear: state.toClear },
    warnings: warningsOf(row, facts),
  };
}

/** The row as the rules want it; what a job is judged by is read with the job's record. */
export function factsOf(row: InstrumentRow): InstrumentFacts {
  const range = row.rangeMax as { value: number; unit: string } | null;
  return {
    id: row.id,
    reference: row.reference,
    class: row.instrumentClass,
    calibrations: row.calibrations.toReversed().map(({ calibratedOn, dueOn, passed }) => ({
      on: day(calibratedOn),
      due: day(dueOn),
      passed,
    })),
    events: row.events.toReversed().map(({ kind, atText }) => ({
      kind: kind as InstrumentEventFacts["kind"],
      at: atText,
    })),
    ...(row.accuracy ? { accuracy: row.accuracy as NonNullable<InstrumentFacts["accuracy"]> } : {}),
    ...(range ? { range: { max: range.value, unit: range.unit } } : {}),
    ...(row.retiredOn ? { retiredOn: day(row.retiredOn) } : {}),
    ...(row.intervalCycles === null ? {} : { intervalCycles: row.intervalCycles }),
    ...(row.uses ? { uses: row.uses } : {}),
  };
}

function warningsOf(row: InstrumentRow, facts: InstrumentFacts): string[] {
  const tool = row.torqueTool as TorqueTool | null;
  const warning = tool ? accuracyWarning(tool, facts) : undefined;
  return warning === undefined ? [] : [warning];
}

const day = (date: Date): string => date.toISOString().slice(0, 10);
