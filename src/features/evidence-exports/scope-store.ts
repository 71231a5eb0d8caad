// Which jobs a scope takes in, in the order of their references.
import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { ExportScope } from "./schemas.ts";

export interface ScopedJob {
  id: string;
  reference: string;
}

interface Condition {
  sql: string;
  values: unknown[];
}

/** Jobs after `after`, a page at a time; a cancelled one is part of the record too. */
export async function jobsInScope(
  tx: FirmTransaction,
  scope: ExportScope,
  { after, most }: { after: string; most: number },
): Promise<ScopedJob[]> {
  const { sql, values } = conditionOf(scope, 4);
  const [rows] = await transactionQuery(tx)({
    text: `SELECT j.id, j.reference FROM job j WHERE j.firm_id = $1::uuid
      AND j.reference COLLATE "C" > $2 AND ${sql} ORDER BY j.reference COLLATE "C" LIMIT $3::int`,
    values: [tx.firmId, after, most, ...values],
  });
  return rows as unknown as ScopedJob[];
}

export async function countJobs(tx: FirmTransaction, scope: ExportScope): Promise<number> {
  const { sql, values } = conditionOf(scope, 2);
  const [rows] = await transactionQuery(tx)({
    text: `SELECT count(*)::int AS count FROM job j WHERE j.firm_id = $1::uuid AND ${sql}`,
    values: [tx.firmId, ...values],
  });
  return (rows as unknown as { count: number }[])[0]?.count ?? 0;
}

/** @param first number of the condition's first place holder */
function conditionOf(scope: ExportScope, first: number): Condition {
  switch (scope.kind) {
    case "unit":
      return { sql: `${UNIT} AND u.unit_id = $${first}::uuid)`, values: [scope.unitId] };
    case "site":
      return { sql: `j.site_id = $${first}::uuid`, values: [scope.siteId] };
    case "period": {
      const days = `BETWEEN $${first}::date AND $${first + 1}::date`;
      return { sql: `${CLOSED_ON} ${days})`, values: [scope.from, scope.to] };
    }
    case "fleet":
      return { sql: "true", values: [] };
  }
}

const UNIT = "EXISTS (SELECT FROM job_unit u WHERE u.firm_id = j.firm_id AND u.job_id = j.id";
/** The day of the close-out that stands, by the firm's calendar. */
const CLOSED_ON = `EXISTS (SELECT FROM close_out c JOIN firm f ON f.id = c.firm_id
  WHERE c.firm_id = j.firm_id AND c.id = j.close_out_id
  AND (c.closed_at AT TIME ZONE f.time_zone)::date`;

/** How people call the scope; undefined where the firm has no such unit or site. */
export async function scopeTitle(
  tx: FirmTransaction,
  scope: ExportScope,
): Promise<{ title: string; mark: string } | undefined> {
  if (scope.kind === "fleet") return { title: "the whole fleet", mark: "FLEET" };
  if (scope.kind === "period") {
    const { from, to } = scope;
    return { title: `jobs closed from ${from} to ${to}`, mark: `PERIOD-${from}-${to}` };
  }
  if (scope.kind === "site") {
    const id = { firmId: tx.firmId, id: scope.siteId };
    const site = await tx.site.findUnique({ where: { firmId_id: id } });
    return site ? { title: `site ${site.reference}`, mark: `SITE-${site.reference}` } : undefined;
  }
  const unit = await tx.unit.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id: scope.unitId } },
    include: { model: { select: { code: true } } },
  });
  if (!unit) return undefined;
  return { title: `unit ${unit.serial} (${unit.model.code})`, mark: `UNIT-${unit.serial}` };
}

export async function siteByReference(
  tx: FirmTransaction,
  reference: string,
): Promise<string | undefined> {
  const where = { firmId: tx.firmId, reference };
  return (await tx.site.findFirst({ where, select: { id: true } }))?.id;
}

/** Two at most: more than one is as good as none. */
export async function unitsBySerial(tx: FirmTransaction, serial: string): Promise<string[]> {
  const where = { firmId: tx.firmId, serial };
  const rows = await tx.unit.findMany({ where, select: { id: true }, take: 2 });
  return rows.map(({ id }) => id);
}
