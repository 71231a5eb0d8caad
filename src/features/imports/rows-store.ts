// The rows of a file between the dry run and the import, a line each.
import type { FirmTransaction } from "../../db/scope.ts";
import type { Figures } from "./schemas.ts";

export interface StagedRow {
  line: number;
  cells: string[];
  /** What the row says, as the interface would take it; null where that is refused already. */
  fields: Record<string, unknown> | null;
  naturalKey: string | null;
  outcome: "bad" | null;
  reason: string | null;
}

export const OF_IMPORT = "r.firm_id = $1::uuid AND r.import_id = $2::uuid";

/**
 * The rows of a batch, $3 in the order of lines: from its first line to its last, so that no batch
 * reads the whole file.
 */
export const OF_BATCH = `${OF_IMPORT} AND r.line BETWEEN ($3::jsonb->0->>'line')::int
  AND ($3::jsonb->-1->>'line')::int`;

export async function stageRows(
  tx: FirmTransaction,
  importId: string,
  rows: readonly StagedRow[],
): Promise<void> {
  await tx.$executeRawUnsafe(
    `INSERT INTO csv_import_row
       (firm_id, import_id, line, fields, natural_key, cells, outcome, reason)
     SELECT $1::uuid, $2::uuid, s.line, s.fields, s."naturalKey", s.cells, s.outcome, s.reason
     FROM jsonb_to_recordset($3::jsonb) AS s(line int, fields jsonb, "naturalKey" text, cells jsonb,
       outcome text, reason text)`,
    tx.firmId,
    importId,
    JSON.stringify(rows),
  );
}

export async function clearRows(tx: FirmTransaction, importId: string): Promise<void> {
  await tx.csvImportRow.deleteMany({ where: { firmId: tx.firmId, importId } });
}

export async function clearGoodRows(tx: FirmTransaction, importId: string): Promise<void> {
  await tx.csvImportRow.deleteMany({
    where: { firmId: tx.firmId, importId, outcome: { not: "bad" } },
  });
}

/**
 * Rows are joined whole: what was written a moment ago has no statistics yet, and a plan made for
 * ten rows would take hours over a hundred thousand.
 */
export async function planForManyRows(tx: FirmTransaction, many: boolean): Promise<void> {
  await tx.$executeRawUnsafe(
    `SELECT set_config('enable_nestloop', '${many ? "off" : "on"}', true),
       set_config('jit', 'off', true), set_config('work_mem', '64MB', true),
       set_config('statement_timeout', '600s', true)`,
  );
}

export async function countOutcomes(tx: FirmTransaction, importId: string): Promise<Figures> {
  const rows = await tx.csvImportRow.groupBy({
    by: ["outcome"],
    where: { firmId: tx.firmId, importId },
    _count: true,
  });
  const of = (outcome: string): number => rows.find((row) => row.outcome === outcome)?._count ?? 0;
  return {
    rows: rows.reduce((sum, { _count }) => sum + _count, 0),
    ...{ new: of("new"), changed: of("changed"), unchanged: of("unchanged"), bad: of("bad") },
  };
}

/** Of rows that are one thing the first counts, and the others are bad. */
export async function refuseTwins(
  tx: FirmTransaction,
  importId: string,
  by: "natural_key" | "subject_id" | "fields->>'serial'",
  only = "true",
): Promise<void> {
  await tx.$executeRawUnsafe(
    `UPDATE csv_import_row r SET outcome = 'bad',
       reason = format('The same stands on line %s already.', twins.first)
     FROM (SELECT r.line, min(r.line) OVER (PARTITION BY r.${by}) AS first FROM csv_import_row r
       WHERE ${OF_IMPORT} AND r.${by} IS NOT NULL AND r.outcome IS DISTINCT FROM 'bad' AND ${only}
     ) twins
     WHERE ${OF_IMPORT} AND twins.line = r.line AND twins.first < r.line`,
    tx.firmId,
    importId,
  );
}

export interface ApplicableRow<Fields> {
  line: number;
  fields: Fields;
  outcome: "new" | "changed";
  subjectId: string | null;
  ownerId: string | null;
}

/** The next rows that change something, in the order of turns and lines. */
export async function applicableRows<Fields>(
  tx: FirmTransaction,
  importId: string,
  after: { turn: number; line: number; most: number },
): Promise<ApplicableRow<Fields>[]> {
  return tx.$queryRawUnsafe<ApplicableRow<Fields>[]>(
    `SELECT r.line, r.fields, r.outcome, r.subject_id AS "subjectId", r.owner_id AS "ownerId"
     FROM csv_import_row r
     WHERE ${OF_IMPORT} AND r.line > $3::int AND r.turn = $4::int
       AND r.outcome IN ('new', 'changed')
     ORDER BY r.line LIMIT $5::int`,
    tx.firmId,
    importId,
    after.line,
    after.turn,
    after.most,
  );
}

/** Back to what the file alone says, to be judged by how things stand now. */
export async function forgetVerdicts(tx: FirmTransaction, importId: string): Promise<void> {
  await tx.$executeRawUnsafe(
    `UPDATE csv_import_row r SET outcome = NULL, reason = NULL, subject_id = NULL, owner_id = NULL,
       turn = 1
     WHERE ${OF_IMPORT} AND r.fields IS NOT NULL
       AND (r.outcome IS NOT NULL OR r.subject_id IS NOT NULL)`,
    tx.firmId,
    importId,
  );
}

export async function setVerdicts(
  tx: FirmTransaction,
  importId: string,
  rows: readonly { line: number; outcome: string; reason: string | null }[],
): Promise<void> {
  await tx.$executeRawUnsafe(
    `UPDATE csv_import_row r SET outcome = v.outcome, reason = v.reason
     FROM jsonb_to_recordset($3::jsonb) AS v(line int, outcome text, reason text)
     WHERE ${OF_BATCH} AND r.line = v.line`,
    tx.firmId,
    importId,
    JSON.stringify(rows),
  );
}

/** Rows in the order of lines, whatever is said of them so far, but those refused by the file. */
export async function readRows<Fields>(
  tx: FirmTransaction,
  importId: string,
  { after, most }: { after: number; most: number },
) {
  return tx.$queryRawUnsafe<{ line: number; fields: Fields; outcome: string | null }[]>(
    `SELECT r.line, r.fields, r.outcome FROM csv_import_row r
     WHERE ${OF_IMPORT} AND r.line > $3::int AND r.fields IS NOT NULL
       AND r.outcome IS DISTINCT FROM 'bad'
     ORDER BY r.line LIMIT $4::int`,
    tx.firmId,
    importId,
    after,
    most,
  );
}

export async function listBadRows(
  tx: FirmTransaction,
  importId: string,
  { after, most }: { after: number; most: number },
) {
  const rows = await tx.csvImportRow.findMany({
    where: { firmId: tx.firmId, importId, outcome: "bad", line: { gt: after } },
    select: { line: true, reason: true, cells: true },
    orderBy: { line: "asc" },
    take: most,
  });
  return rows.map(({ line, reason, cells }) => ({
    line,
    reason: reason ?? "",
    cells: (cells ?? []) as string[],
  }));
}
