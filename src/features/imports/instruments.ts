import type { FirmTransaction } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { InstrumentEdit, NewCalibration, NewInstrument } from "../instruments/schemas.ts";
import { INSTRUMENT_FIELDS, nested } from "./instrument-cells.ts";
import { type InstrumentRow, keepInstrumentRow } from "./keep-instrument-row.ts";
import { type ImportContext, type ImportKind, missing, readBySchema } from "./kind.ts";
import { applicableRows, readRows, refuseTwins, setVerdicts } from "./rows-store.ts";
import { inSavepoint } from "./savepoint-store.ts";

const Row = InstrumentEdit.omit({ retiredOn: true }).extend({
  instrumentClass: NewInstrument.shape.instrumentClass.optional(),
  calibration: NewCalibration.optional(),
});

/** Not many, and of many rules: each row goes through the very functions of the interface. */
export const instruments: ImportKind = {
  fields: INSTRUMENT_FIELDS,
  open: async () => (values) => {
    if (values.reference === undefined) return missing("reference");
    const read = readBySchema(Row, nested(values));
    if (!read.ok) return read;
    return { ok: true, fields: read.value, naturalKey: `reference ${read.value.reference}` };
  },
  judge: judgeInstruments,
  apply: applyInstruments,
};

const A_BATCH = 100;

/** Does what each row asks for, notes how that went, and takes it back. */
async function judgeInstruments(tx: FirmTransaction, context: ImportContext): Promise<void> {
  const { importId } = context;
  await refuseTwins(tx, importId, "natural_key");
  for (let after = 0; ; ) {
    const rows = await readRows<InstrumentRow>(tx, importId, { after, most: A_BATCH });
    const last = rows.at(-1);
    if (!last) return;
    const verdicts = [];
    for (const { line, fields } of rows) {
      verdicts.push({ line, ...(await tried(tx, fields, context)) });
    }
    await setVerdicts(tx, importId, verdicts);
    after = last.line;
  }
}

async function tried(tx: FirmTransaction, row: InstrumentRow, context: ImportContext) {
  try {
    const outcome = await inSavepoint(tx, () => keepInstrumentRow(tx, row, context));
    return { outcome, reason: null };
  } catch (error) {
    if (!(error instanceof Problem) || error.status >= 500) throw error;
    return { outcome: "bad", reason: error.message };
  }
}

async function applyInstruments(
  tx: FirmTransaction,
  context: ImportContext,
): Promise<Record<string, number>> {
  for (let [line, done] = [0, 0]; ; ) {
    const rows = await applicableRows<InstrumentRow>(tx, context.importId, {
      ...{ turn: 1, line, most: A_BATCH },
    });
    const last = rows.at(-1);
    if (!last) return {};
    for (const { fields } of rows) await keepInstrumentRow(tx, fields, context);
    [line, done] = [last.line, done + rows.length];
    await context.beat(done);
  }
}
