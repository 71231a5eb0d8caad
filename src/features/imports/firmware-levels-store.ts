// Known by unit, moment and level. Readings of one unit are kept in the order of their moments,
// each by the rule of any reading: one that goes backwards or cannot be ordered is kept and
// flagged.
import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { statementsForReadings } from "../firmware/level-store.ts";
import { lockUnits } from "../units/move-store.ts";
import { endpointsFor } from "../webhooks/delivery-store.ts";
import { raiseEvent } from "../webhooks/raise-event.ts";
import type { ImportContext } from "./kind.ts";
import {
  type ApplicableRow,
  applicableRows,
  OF_IMPORT,
  planForManyRows,
  refuseTwins,
} from "./rows-store.ts";

const REASON = `CASE
  WHEN f.known = 0 THEN 'serial: there is no such unit in your firm'
  WHEN f.known > 1 THEN 'serial: several product models have a unit of it; give the model too' END`;

const JUDGE = `UPDATE csv_import_row r SET subject_id = j.unit_id, turn = j.turn, reason = j.reason,
    outcome = CASE WHEN j.reason IS NOT NULL THEN 'bad' WHEN j.is_there THEN 'unchanged'
      ELSE 'new' END
  FROM (SELECT f.line, f.unit_id, ${REASON} AS reason,
      EXISTS (SELECT FROM firmware_reading g WHERE g.firm_id = $1::uuid AND g.unit_id = f.unit_id
        AND g.read_at = f.read_at AND g.level = f.level) AS is_there,
      row_number() OVER (PARTITION BY f.unit_id ORDER BY f.read_at, f.line) AS turn
    FROM (SELECT r.line, (r.fields->>'readAt')::timestamptz(3) AS read_at,
        r.fields->>'level' AS level, count(u.id) AS known, min(u.id::text)::uuid AS unit_id
      FROM csv_import_row r LEFT JOIN unit u ON u.firm_id = $1::uuid
        AND u.serial = r.fields->>'serial'
        AND (NOT r.fields ? 'modelId' OR u.model_id = (r.fields->>'modelId')::uuid)
      WHERE ${OF_IMPORT} AND r.outcome IS NULL GROUP BY r.line, r.fields) f) j
  WHERE ${OF_IMPORT} AND r.line = j.line`;

export async function judgeLevels(tx: FirmTransaction, { importId }: ImportContext): Promise<void> {
  await planForManyRows(tx, true);
  await refuseTwins(tx, importId, "natural_key");
  await tx.$executeRawUnsafe(JUDGE, tx.firmId, importId);
  await planForManyRows(tx, false);
}

const A_BATCH = 1000;
type Level = ApplicableRow<{ level: string; readAt: string }>;

export async function applyLevels(
  tx: FirmTransaction,
  context: ImportContext,
): Promise<Record<string, number>> {
  const { importId, beat } = context;
  const events = (await endpointsFor(tx, "firmware.updated")).length > 0;
  let done = 0;
  const turns = await lastTurn(tx, importId);
  for (let turn = 1; turn <= turns; turn += 1) {
    for (let line = 0; ; ) {
      const rows = await applicableRows<Level["fields"]>(tx, importId, {
        ...{ turn, line, most: A_BATCH },
      });
      const last = rows.at(-1);
      if (!last) break;
      await keep(tx, rows, context, events);
      [line, done] = [last.line, done + rows.length];
      await beat(done);
    }
  }
  return { flagged: await countFlagged(tx, importId) };
}

/** Readings of different units. */
async function keep(
  tx: FirmTransaction,
  rows: readonly Level[],
  { personId, now }: ImportContext,
  events: boolean,
): Promise<void> {
  const ids = rows.flatMap(({ subjectId }) => subjectId ?? []);
  await lockUnits(tx, ids);
  const before = await unitsOf(tx, ids);
  const readings = rows.map(({ subjectId, fields }) => ({
    reading: {
      ...{ unitId: subjectId ?? "", level: fields.level, readAt: new Date(fields.readAt) },
      ...({ source: "import", personId } as const),
    },
    scheme: before.get(subjectId ?? "")?.scheme ?? "",
  }));
  await transactionQuery(tx)(...statementsForReadings(tx.firmId, readings, now));
  if (!events) return;
  const after = await unitsOf(tx, ids);
  for (const { reading } of readings) {
    const [was, is] = [before.get(reading.unitId), after.get(reading.unitId)];
    if (!is?.onTarget || was?.onTarget) continue;
    const { unitId, level, readAt } = reading;
    const data = { unitId, level, jobId: null, readAt: readAt.toISOString() };
    await raiseEvent(tx, { kind: "firmware.updated", data }, now);
  }
}

/** The scheme of each unit's levels, and whether it stands at or above the least of its targets. */
async function unitsOf(tx: FirmTransaction, ids: string[]) {
  const rows = await tx.$queryRaw<{ id: string; scheme: string; onTarget: boolean }[]>`
    SELECT u.id, m.firmware_scheme AS scheme, u.firmware_key >= (
      SELECT min(t.target_key) FROM firmware_target t WHERE t.firm_id = u.firm_id
        AND t.model_id = u.model_id AND t.state <> 'waiting') AS "onTarget"
    FROM unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    WHERE u.firm_id = ${tx.firmId}::uuid AND u.id = ANY (${ids}::uuid[])`;
  return new Map(rows.map((row) => [row.id, row]));
}

async function lastTurn(tx: FirmTransaction, importId: string): Promise<number> {
  const { _max } = await tx.csvImportRow.aggregate({
    where: { firmId: tx.firmId, importId, outcome: { in: ["new", "changed"] } },
    _max: { turn: true },
  });
  return _max.turn ?? 0;
}

/** Of the readings of this import. */
async function countFlagged(tx: FirmTransaction, importId: string): Promise<number> {
  const [row] = await tx.$queryRaw<{ flagged: number }[]>`
    SELECT count(*)::int AS flagged FROM csv_import_row r
    JOIN firmware_reading g ON g.firm_id = r.firm_id AND g.unit_id = r.subject_id
      AND g.read_at = (r.fields->>'readAt')::timestamptz(3) AND g.level = r.fields->>'level'
    WHERE r.firm_id = ${tx.firmId}::uuid AND r.import_id = ${importId}::uuid
      AND r.outcome = 'new' AND g.flag IS NOT NULL AND g.source = 'import'`;
  return row?.flagged ?? 0;
}
