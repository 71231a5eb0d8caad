import type { FirmTransaction } from "../../db/scope.ts";
import { spanOfCalibration } from "../../domain/acceptance/instrument-doubt.ts";
import { isTorqueTool, TORQUE_INTERVAL } from "../../domain/acceptance/torque-tool.ts";
import { calibrationDue } from "../../domain/dates/calibration-dates.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { readFirm } from "../firms/store.ts";
import { castDoubt } from "./cast-doubt.ts";
import { factsOf } from "./standing.ts";
import {
  addCalibration,
  addInstrument,
  editInstrument,
  findInstrument,
  type InstrumentFields,
  isReferenceTaken,
} from "./store.ts";

export async function takeOnInstrument(
  tx: FirmTransaction,
  fields: InstrumentFields,
): Promise<string> {
  requireReckonable(fields);
  requireTorqueTool(fields);
  const id = await addInstrument(tx, withInterval(fields));
  if (id === undefined) throw referenceTaken(fields.reference);
  return id;
}

export interface InstrumentChange extends Partial<InstrumentFields> {
  retiredOn?: string | null;
}

export async function changeInstrument(
  tx: FirmTransaction,
  id: string,
  version: number,
  { retiredOn, ...change }: InstrumentChange,
): Promise<void> {
  const before = await findInstrument(tx, id);
  if (!before) throw notFound("instrument");
  const whole = { ...(before as InstrumentFields), ...change };
  requireReckonable(whole);
  requireTorqueTool(whole);
  const { reference } = change;
  if (reference !== undefined && (await isReferenceTaken(tx, reference, id))) {
    throw referenceTaken(reference);
  }
  const retired =
    retiredOn === undefined ? {} : { retiredOn: retiredOn === null ? null : new Date(retiredOn) };
  const edited = await editInstrument(tx, id, version, { ...change, ...retired });
  if (!edited) throw editedMeanwhile();
}

/** A part of the accuracy that cannot be reckoned would leave every reading unjudged. */
function requireReckonable(fields: Partial<InstrumentFields>): void {
  const { accuracy, rangeMax, resolution } = fields;
  if (accuracy?.percentOfRange !== undefined && !rangeMax) {
    throw invalid("/body/accuracy/percentOfRange", "needs rangeMax, of which it is a part");
  }
  if (accuracy?.digits !== undefined && !resolution) {
    throw invalid("/body/accuracy/digits", "needs resolution, whose steps it counts");
  }
}

function requireTorqueTool({ torqueTool, instrumentClass }: InstrumentFields): void {
  if (!torqueTool || isTorqueTool(instrumentClass)) return;
  throw invalid("/body/torqueTool", "belongs to torque tools alone");
}

function withInterval(fields: InstrumentFields): InstrumentFields {
  if (fields.intervalCycles !== undefined || !isTorqueTool(fields.instrumentClass)) return fields;
  return { ...fields, intervalCycles: TORQUE_INTERVAL.cycles };
}

const referenceTaken = (reference: string): Problem =>
  new Problem(
    "conflict",
    `There is an instrument with the reference ${reference} already. Choose another.`,
  );

export interface CalibrationFields {
  calibratedOn: string;
  dueOn?: string;
  passed: boolean;
  certificate: string;
}

const INTERVAL_MONTHS_MOST = 120;

export async function calibrateInstrument(
  tx: FirmTransaction,
  instrumentId: string,
  fields: CalibrationFields,
  now: Date,
  personId?: string,
) {
  const instrument = await findInstrument(tx, instrumentId);
  if (!instrument) throw notFound("instrument");
  if (instrument.retiredOn) {
    throw new Problem(
      "conflict",
      `${instrument.reference} is retired. Bring it back into use first (retiredOn: null).`,
    );
  }
  const { calibratedOn, passed, certificate } = fields;
  const { timeZone } = await readFirm(tx);
  if (calibratedOn > localDay(now.toISOString(), timeZone)) {
    throw invalid("/body/calibratedOn", "lies in the future");
  }
  const dueOn = fields.dueOn ?? calibrationDue(calibratedOn, instrument.intervalMonths);
  if (dueOn <= calibratedOn) throw invalid("/body/dueOn", "must be after calibratedOn");
  if (dueOn > calibrationDue(calibratedOn, INTERVAL_MONTHS_MOST)) {
    throw invalid("/body/dueOn", "must be within ten years of calibratedOn");
  }
  const row = await addCalibration(tx, {
    instrumentId,
    calibratedOn: new Date(calibratedOn),
    dueOn: new Date(dueOn),
    passed,
    certificate,
  });
  if (passed) return row;
  const { calibrations } = factsOf(instrument);
  const failed = { on: calibratedOn, due: dueOn, passed };
  const span = spanOfCalibration({ calibrations: [...calibrations, failed] }, calibratedOn);
  await castDoubt(tx, instrumentId, span, { now, ...(personId ? { personId } : {}) });
  return row;
}
