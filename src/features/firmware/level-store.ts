// A firmware level read off a unit is kept always, whatever it says; the unit moves to it if no
// later reading is known. Only such a reading takes a unit off the due list.
import { uuidv7 } from "uuidv7";
import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction, Statement } from "../../db/scope.ts";
import { levelKey } from "../../domain/firmware/level-key.ts";
import type { FirmwareScheme } from "../../domain/firmware/levels.ts";
import type { CompiledPlan } from "../../domain/plan/compile.ts";
import type { JobRecord } from "../job-record/store.ts";

interface LevelAnswer {
  itemId: string;
  subject: string;
  value: unknown;
  takenAt: string;
}

/** Statements for the answers that read a level off a unit; none for the others. */
export function levelStatements(
  firm: { firmId: string },
  record: JobRecord,
  plan: CompiledPlan,
  answers: readonly LevelAnswer[],
  personId: string,
  now: Date,
): Statement[] {
  const rows = answers.flatMap((answer) => {
    const item = plan.byId.get(answer.itemId)?.item;
    const unit = record.units.find(({ id }) => id === answer.subject);
    if (item?.kind !== "identify" || item.what !== "firmware-level" || !unit) return [];
    const level = String((answer.value as { text: unknown }).text).trim();
    const reading = { unitId: unit.id, level, readAt: answer.takenAt, jobId: record.job.id };
    return [rowOf({ ...reading, personId, source: "tablet" }, unit.firmwareScheme)];
  });
  return rows.length === 0 ? [] : readingStatements(firm.firmId, rows, now);
}

export interface LevelReading {
  unitId: string;
  level: string;
  readAt: Date;
  source: "tablet" | "api" | "import";
  jobId?: string;
  personId?: string | null;
}

/** Keeps one level read off a unit; undefined when the firm has no such unit. */
export async function recordFirmwareReading(
  tx: FirmTransaction,
  reading: LevelReading,
  now = new Date(),
) {
  const unit = await lockUnit(tx, reading.unitId);
  if (!unit) return undefined;
  const { jobId = null, personId = null, readAt, ...fields } = reading;
  const row = rowOf(
    { ...fields, readAt: readAt.toISOString(), jobId, personId },
    unit.firmwareScheme,
  );
  await transactionQuery(tx)(...readingStatements(tx.firmId, [row], now));
  return tx.firmwareReading.findUniqueOrThrow({
    where: { firmId_id: { firmId: tx.firmId, id: row.id } },
  });
}

/** Statements for readings of different units, each with the scheme of its unit's model. */
export const statementsForReadings = (
  firmId: string,
  readings: readonly { reading: LevelReading; scheme: string }[],
  now: Date,
): Statement[] => {
  const rows = readings.map(({ reading, scheme }) => {
    const { jobId = null, personId = null, readAt, ...fields } = reading;
    return rowOf({ ...fields, readAt: readAt.toISOString(), jobId, personId }, scheme);
  });
  return readingStatements(firmId, rows, now);
};

/** The key of the level that the unit has by what was read so far. */
export async function keyOfUnit(tx: FirmTransaction, id: string): Promise<bigint | null> {
  const unit = await tx.unit.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    select: { firmwareKey: true },
  });
  return unit?.firmwareKey ?? null;
}

async function lockUnit(tx: FirmTransaction, id: string) {
  const [unit] = await tx.$queryRaw<{ firmwareScheme: string }[]>`
    SELECT m.firmware_scheme AS "firmwareScheme"
    FROM unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    WHERE u.firm_id = ${tx.firmId}::uuid AND u.id = ${id}::uuid FOR NO KEY UPDATE OF u`;
  return unit;
}

interface ReadingRow {
  id: string;
  unitId: string;
  level: string;
  /** As text, because JSON numbers do not hold 63 bits. */
  levelKey: string | null;
  readAt: string;
  source: LevelReading["source"];
  jobId: string | null;
  personId: string | null;
}

function rowOf(reading: Omit<ReadingRow, "id" | "levelKey">, scheme: string): ReadingRow {
  const key = levelKey(scheme as FirmwareScheme, reading.level);
  return { id: uuidv7(), ...reading, levelKey: key === undefined ? null : String(key) };
}

function readingStatements(firmId: string, rows: readonly ReadingRow[], now: Date): Statement[] {
  const list = JSON.stringify(rows);
  return [
    { text: KEEP, values: [firmId, list] },
    { text: MOVE, values: [firmId, list, now] },
  ];
}

const READINGS = `jsonb_to_recordset($2::jsonb) AS r(id uuid, "unitId" uuid, level text,
  "levelKey" bigint, "readAt" timestamptz, source text, "jobId" uuid, "personId" uuid)`;

/** Backwards is a level below the one read before it; what was read later does not count. */
const KEEP = `INSERT INTO firmware_reading
    (firm_id, id, unit_id, level, level_key, read_at, source, job_id, person_id, flag)
  SELECT $1::uuid, r.id, r."unitId", r.level, r."levelKey", r."readAt", r.source, r."jobId",
    r."personId",
    CASE WHEN r."levelKey" IS NULL THEN 'not-orderable'
         WHEN r."levelKey" < before.level_key
           OR (u.firmware_read_at <= r."readAt" AND r."levelKey" < u.firmware_key)
         THEN 'backwards' END
  FROM ${READINGS}
  JOIN unit u ON u.firm_id = $1::uuid AND u.id = r."unitId"
  LEFT JOIN LATERAL (
    SELECT p.level_key FROM firmware_reading p
    WHERE p.firm_id = $1::uuid AND p.unit_id = r."unitId" AND p.read_at <= r."readAt"
      AND p.level_key IS NOT NULL
    ORDER BY p.read_at DESC, p.id DESC LIMIT 1) before ON true`;

/** A clock that runs ahead must not hide the readings after it: the unit's own time ends at now. */
const MOVE = `UPDATE unit u SET firmware_level = r.level, firmware_key = r."levelKey",
    firmware_read_at = least(r."readAt", $3::timestamptz), updated_at = $3::timestamptz,
    version = u.version + 1
  FROM (SELECT DISTINCT ON ("unitId") * FROM ${READINGS}
        ORDER BY "unitId", "readAt" DESC, id DESC) r
  WHERE u.firm_id = $1::uuid AND u.id = r."unitId"
    AND (u.firmware_read_at IS NULL OR u.firmware_read_at <= least(r."readAt", $3::timestamptz))`;
