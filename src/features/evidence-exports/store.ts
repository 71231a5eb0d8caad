import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { ExportScope } from "./schemas.ts";

const WITH_PERSON = { person: { select: { name: true } } } as const;

export interface NewExportRow {
  scope: ExportScope;
  title: string;
  fileName: string;
  jobsTotal: number;
  personId: string;
  /** The access of the auditor within whose scope it is made. */
  auditAccessId?: string;
}

export async function addEvidenceExport(tx: FirmTransaction, row: NewExportRow, now: Date) {
  return tx.evidenceExport.create({
    data: { firmId: tx.firmId, id: uuidv7(), createdAt: now, ...row },
    include: WITH_PERSON,
  });
}

export async function findEvidenceExport(tx: FirmTransaction, id: string) {
  return tx.evidenceExport.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_PERSON,
  });
}

export type ExportRow = NonNullable<Awaited<ReturnType<typeof findEvidenceExport>>>;

/** The latest first. */
export async function listEvidenceExports(
  tx: FirmTransaction,
  { before, most }: { before?: string | undefined; most: number },
) {
  return tx.evidenceExport.findMany({
    where: { firmId: tx.firmId, ...(before ? { id: { lt: before } } : {}) },
    include: WITH_PERSON,
    orderBy: { id: "desc" },
    take: most,
  });
}

export async function evidenceExportsById(tx: FirmTransaction, ids: string[]) {
  return tx.evidenceExport.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: WITH_PERSON,
    take: ids.length,
  });
}

export async function countMaking(tx: FirmTransaction): Promise<number> {
  return tx.evidenceExport.count({ where: { firmId: tx.firmId, state: "making" } });
}

export interface Lease {
  exportId: string;
  workerId: string;
}

/** Takes an export for one worker; undefined when nothing is to do, or one is at it. */
export async function claimExport(
  tx: FirmTransaction,
  { exportId, workerId }: Lease,
  now: Date,
  leaseUntil: Date,
): Promise<ExportRow | undefined> {
  const { count } = await tx.evidenceExport.updateMany({
    where: { ...waiting(tx, now), id: exportId },
    data: { workerId, leaseUntil, attempts: { increment: 1 }, jobsDone: 0 },
  });
  return count === 1 ? ((await findEvidenceExport(tx, exportId)) ?? undefined) : undefined;
}

/** False when the worker lost it: another took it over. */
export async function beatExport(
  tx: FirmTransaction,
  lease: Lease,
  change: { jobsDone: number; leaseUntil: Date },
): Promise<boolean> {
  const { count } = await tx.evidenceExport.updateMany({ where: held(tx, lease), data: change });
  return count === 1;
}

export interface Outcome {
  state?: "ready" | "failed";
  bytes?: number;
  sha256?: string;
  problem?: string;
  finishedAt?: Date;
  attempts?: number;
  jobsTotal?: number;
  stampedAt?: Date | null;
  stampProblem?: string | null;
}

/** The worker's last word; false when it lost the export before. */
export async function finishExport(
  tx: FirmTransaction,
  lease: Lease,
  outcome: Outcome,
): Promise<boolean> {
  const { count } = await tx.evidenceExport.updateMany({
    where: held(tx, lease),
    data: { ...outcome, workerId: null, leaseUntil: null, version: { increment: 1 } },
  });
  return count === 1;
}

const held = (tx: FirmTransaction, { exportId, workerId }: Lease) => ({
  ...{ firmId: tx.firmId, id: exportId, workerId, state: "making" },
});

const waiting = (tx: FirmTransaction, now: Date) => ({
  ...{ firmId: tx.firmId, state: "making" },
  OR: [{ leaseUntil: null }, { leaseUntil: { lt: now } }],
});

const A_TURN = 20;

/** What nobody works on although it waits for it. */
export async function waitingExports(tx: FirmTransaction, now: Date): Promise<string[]> {
  const wish = { where: waiting(tx, now), select: { id: true }, take: A_TURN } as const;
  const rows = await tx.evidenceExport.findMany({ ...wish, orderBy: { id: "asc" } });
  return rows.map(({ id }) => id);
}

/** Finished before that moment, their files still there. */
export async function staleExports(tx: FirmTransaction, before: Date): Promise<string[]> {
  const where = { firmId: tx.firmId, state: "ready", finishedAt: { lt: before } };
  const rows = await tx.evidenceExport.findMany({ where, select: { id: true }, take: 500 });
  return rows.map(({ id }) => id);
}

export async function markGone(tx: FirmTransaction, id: string): Promise<void> {
  await tx.evidenceExport.updateMany({
    where: { firmId: tx.firmId, id, state: "ready" },
    data: { state: "gone", version: { increment: 1 } },
  });
}
