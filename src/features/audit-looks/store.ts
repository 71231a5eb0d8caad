import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { JobBy } from "./what.ts";

export interface Look {
  personId: string;
  /** UTC, as on the ledgers. */
  day: string;
  path: string;
  operation: string;
  subjectId: string | null;
  at: Date;
}

/** Once a day for a person and an address. */
export async function addAuditLook(tx: FirmTransaction, { day, ...look }: Look): Promise<void> {
  await tx.auditLook.createMany({
    data: [{ firmId: tx.firmId, id: uuidv7(), day: new Date(day), ...look }],
    skipDuplicates: true,
  });
}

/** The job that it belongs to; undefined where it belongs to none, or is not there. */
export async function jobOf(
  tx: FirmTransaction,
  by: JobBy,
  id: string,
): Promise<string | undefined> {
  const query = {
    where: { firmId_id: { firmId: tx.firmId, id } },
    select: { jobId: true },
  } as const;
  if (by === "job") return id;
  if (by === "snag") return (await tx.snag.findUnique(query))?.jobId;
  if (by === "visit") return (await tx.visit.findUnique(query))?.jobId;
  return (await tx.nonconformance.findUnique(query))?.jobId ?? undefined;
}

export interface LookFilter {
  personId?: string | undefined;
  day?: string | undefined;
  before?: string | undefined;
  /** These alone. */
  ids?: string[];
  most: number;
}

/** The latest first. */
export async function listAuditLooks(
  tx: FirmTransaction,
  { personId, day, before, ids, most }: LookFilter,
) {
  return tx.auditLook.findMany({
    where: {
      firmId: tx.firmId,
      ...(personId ? { personId } : {}),
      ...(day ? { day: new Date(day) } : {}),
      ...(before ? { id: { lt: before } } : {}),
      ...(ids ? { id: { in: ids } } : {}),
    },
    include: { person: { select: { name: true } } },
    orderBy: { id: "desc" },
    take: most,
  });
}
export type LookRow = Awaited<ReturnType<typeof listAuditLooks>>[number];

/** What has a name that people call it by. */
export const THINGS = `SELECT id, firm_id, reference AS name FROM site
  UNION ALL SELECT id, firm_id, reference FROM customer
  UNION ALL SELECT id, firm_id, serial FROM unit
  UNION ALL SELECT id, firm_id, reference FROM instrument
  UNION ALL SELECT id, firm_id, reference FROM nonconformance
  UNION ALL SELECT id, firm_id, reference FROM audit_sample
  UNION ALL SELECT id, firm_id, code FROM product_model
  UNION ALL SELECT id, firm_id, title FROM evidence_export
  UNION ALL SELECT id, firm_id, name FROM person`;

/** What people call the things looked at, by id. */
export async function namesOf(
  tx: FirmTransaction,
  ids: readonly string[],
): Promise<Map<string, string>> {
  const rows = await tx.$queryRawUnsafe<{ id: string; name: string }[]>(
    `SELECT id, name FROM (${THINGS}) things
     WHERE firm_id = $1::uuid AND id = ANY ($2::uuid[])`,
    tx.firmId,
    [...ids],
  );
  return new Map(rows.map(({ id, name }) => [id, name]));
}

/** Everybody who ever looked, by name. */
export async function lookers(tx: FirmTransaction, most: number) {
  return tx.person.findMany({
    where: { firmId: tx.firmId, OR: [{ auditLooks: { some: {} } }, { roles: { has: "auditor" } }] },
    select: { id: true, name: true },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    take: most,
  });
}
