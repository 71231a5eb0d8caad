// Instruments as the rules want them: with their calibrations, what happened to them, and what
// torque tools were used for.
import type { Statement } from "../../db/scope.ts";
import type { InstrumentEventFacts, InstrumentUse } from "../../domain/plan/context.ts";

export interface InstrumentRow {
  id: string;
  reference: string;
  instrumentClass: string;
  accuracy: Record<string, number> | null;
  rangeMax: { value: number; unit: string } | null;
  resolution: { step: number; unit: string } | null;
  retiredOn: string | null;
  intervalCycles: number | null;
  calibrations: { on: string; due: string; passed: boolean }[];
  events: InstrumentEventFacts[];
  uses: InstrumentUse[];
}

/** Columns of an InstrumentRow from `instrument i`, for judging the answers of the job in $2. */
export const INSTRUMENT_COLUMNS = `i.id, i.reference, i.instrument_class AS "instrumentClass",
  i.accuracy, i.range_max AS "rangeMax", i.resolution, i.retired_on::text AS "retiredOn",
  i.interval_cycles AS "intervalCycles",
  coalesce((SELECT json_agg(json_build_object('on', c.calibrated_on, 'due', c.due_on,
    'passed', c.passed) ORDER BY c.calibrated_on, c.created_at)
    FROM calibration c WHERE c.firm_id = i.firm_id AND c.instrument_id = i.id), '[]')
    AS calibrations,
  coalesce((SELECT json_agg(json_build_object('kind', e.kind, 'at', e.at_text) ORDER BY e.at, e.id)
    FROM instrument_event e WHERE e.firm_id = i.firm_id AND e.instrument_id = i.id
      AND e.kind IN ('overload', 'dropped', 'recheck-passed', 'recheck-failed')), '[]') AS events,
  CASE WHEN i.interval_cycles IS NULL THEN '[]'
    ELSE instrument_uses(i.firm_id, i.id, $2::uuid) END AS uses`;

/**
 * Locks the torque tools among the instruments of $2, always in the same order: whoever counts
 * their cycles is alone until what was judged by the count is stored, and its uses with it.
 */
export const LOCKED_TOOLS: Statement = {
  name: "job_record_locked_tools",
  text: `SELECT id FROM instrument WHERE firm_id = $1::uuid AND id = ANY($2::uuid[])
      AND instrument_class IN ('torque-wrench', 'torque-screwdriver')
    ORDER BY id FOR NO KEY UPDATE`,
};
