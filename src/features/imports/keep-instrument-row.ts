import { isDeepStrictEqual } from "node:util";
import type { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import {
  calibrateInstrument,
  changeInstrument,
  takeOnInstrument,
} from "../instruments/keep-instrument.ts";
import { type NewCalibration, NewInstrument } from "../instruments/schemas.ts";
import { findInstrumentByReference, isCalibrationKnown } from "./instruments-store.ts";
import type { ImportContext } from "./kind.ts";

export type InstrumentRow = Partial<z.infer<typeof NewInstrument>> & {
  reference: string;
  calibration?: z.infer<typeof NewCalibration>;
};

/** Takes an instrument on, or changes what the row says otherwise, and adds its calibration. */
export async function keepInstrumentRow(
  tx: FirmTransaction,
  { calibration, ...fields }: InstrumentRow,
  { now, personId }: Pick<ImportContext, "now" | "personId">,
): Promise<"new" | "changed" | "unchanged"> {
  const known = await findInstrumentByReference(tx, fields.reference);
  const changed = known && (await change(tx, known, fields));
  const id = known?.id ?? (await takeOn(tx, fields));
  const calibrated = calibration !== undefined && !(await isCalibrationKnown(tx, id, calibration));
  if (calibrated) await calibrateInstrument(tx, id, calibration, now, personId);
  if (!known) return "new";
  return changed || calibrated ? "changed" : "unchanged";
}

async function takeOn(tx: FirmTransaction, fields: Omit<InstrumentRow, "calibration">) {
  const read = NewInstrument.safeParse(fields);
  if (read.success) return takeOnInstrument(tx, read.data);
  const [issue] = read.error.issues;
  const field = String(issue?.path[0] ?? "");
  const isMissing = !Object.hasOwn(fields, field);
  const detail = isMissing ? "is missing; a new instrument needs it" : (issue?.message ?? "");
  throw invalid(`/body/${field}`, `${field}: ${detail}`);
}

type Known = NonNullable<Awaited<ReturnType<typeof findInstrumentByReference>>>;

/** Whether anything was changed. */
async function change(
  tx: FirmTransaction,
  known: Known,
  fields: Omit<InstrumentRow, "calibration">,
): Promise<boolean> {
  const { instrumentClass, ...rest } = fields;
  if (instrumentClass !== undefined && instrumentClass !== known.instrumentClass) {
    const { reference, instrumentClass } = known;
    const detail = `${reference} is of the class ${instrumentClass}: take it on as another one.`;
    throw invalid("/body/instrumentClass", detail);
  }
  const wished = Object.entries(rest).filter(
    ([field, value]) =>
      value !== undefined && !isDeepStrictEqual(value, known[field as keyof Known]),
  );
  if (wished.length === 0) return false;
  await changeInstrument(tx, known.id, known.version, Object.fromEntries(wished));
  return true;
}
