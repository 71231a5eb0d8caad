import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";

export type JobState = "open" | "closed" | "cancelled";

/** The plan's document is left out: it is large, and only few need it. */
export const PLAN_VERSION_PIN = {
  select: {
    id: true,
    planId: true,
    number: true,
    sha256: true,
    plan: { select: { code: true, title: true } },
  },
} as const;

const WITH_PLACE_AND_PLAN = {
  site: { include: { customer: true } },
  planVersion: PLAN_VERSION_PIN,
} as const;

/** The job with its site, customer and plan version. */
export async function findJob(tx: FirmTransaction, id: string) {
  const row = await tx.job.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_PLACE_AND_PLAN,
  });
  return row ? { ...row, state: row.state as JobState } : undefined;
}

export async function isJob(tx: FirmTransaction, id: string): Promise<boolean> {
  const where = { firmId_id: { firmId: tx.firmId, id } };
  return (await tx.job.findUnique({ where, select: { id: true } })) !== null;
}

export type JobRow = NonNullable<Awaited<ReturnType<typeof findJob>>>;

/**
 * The job, locked for the rest of the transaction. The lock is the ledger's own: it lets rows that
 * refer to the job be written meanwhile, and keeps other changes of the job itself waiting.
 */
export async function lockJob(tx: FirmTransaction, id: string): Promise<JobRow | undefined> {
  await tx.$queryRaw`SELECT id FROM job WHERE firm_id = ${tx.firmId}::uuid AND id = ${id}::uuid
    FOR NO KEY UPDATE`;
  return findJob(tx, id);
}

/** The job's units in order, each with its product model. */
export async function jobUnits(tx: FirmTransaction, jobId: string) {
  return tx.jobUnit.findMany({
    where: { firmId: tx.firmId, jobId },
    include: { unit: { include: { model: true } } },
    orderBy: { position: "asc" },
  });
}

export interface NewJobRow {
  siteId: string;
  kind: string;
  title: string;
  planVersionId: string;
  createdById: string;
}

export async function addJob(tx: FirmTransaction, fields: NewJobRow, now: Date): Promise<string> {
  const reference = await nextReference(tx, "J", now);
  const { id } = await tx.job.create({
    data: { firmId: tx.firmId, id: uuidv7(), reference, createdAt: now, ...fields },
    select: { id: true },
  });
  return id;
}

/** False when the row has another version by now. */
export async function editTitle(
  tx: FirmTransaction,
  id: string,
  version: number,
  title: string,
): Promise<boolean> {
  const { count } = await tx.job.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { title, version: { increment: 1 } },
  });
  return count === 1;
}

/** What the job's ETag stands for has changed. */
export async function moveVersion(tx: FirmTransaction, id: string): Promise<void> {
  await tx.job.updateMany({
    where: { firmId: tx.firmId, id },
    data: { version: { increment: 1 } },
  });
}

export async function markCancelled(tx: FirmTransaction, id: string): Promise<void> {
  await tx.job.update({
    where: { firmId_id: { firmId: tx.firmId, id } },
    data: { state: "cancelled", version: { increment: 1 } },
  });
}
