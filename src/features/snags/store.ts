import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface SnagFields {
  title: string;
  detail?: string | null;
}

export interface SnagFilter {
  state?: "open" | "mended";
  jobId?: string;
  siteId?: string;
  title?: string;
  after?: string;
  most: number;
}

const WITH_NAMES = {
  job: { select: { reference: true, state: true, siteId: true } },
  followUpJob: { select: { reference: true, state: true } },
  followUpVisit: { select: { startsAt: true, state: true } },
  raisedBy: { select: { name: true } },
  mendedBy: { select: { name: true } },
} as const;

export async function listSnags(tx: FirmTransaction, filter: SnagFilter) {
  const { state, jobId, siteId, title, after } = filter;
  return tx.snag.findMany({
    where: {
      firmId: tx.firmId,
      ...(state ? { state } : {}),
      ...(jobId ? { jobId } : {}),
      ...(siteId ? { job: { siteId } } : {}),
      ...(title ? { title: { contains: title, mode: "insensitive" } } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    include: WITH_NAMES,
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export async function findSnag(tx: FirmTransaction, id: string) {
  return tx.snag.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_NAMES,
  });
}

export async function addSnag(
  tx: FirmTransaction,
  snag: SnagFields & { id?: string; jobId: string; raisedById: string },
  now: Date,
) {
  return tx.snag.create({
    data: { firmId: tx.firmId, id: uuidv7(), raisedAt: now, ...snag },
    include: WITH_NAMES,
  });
}

/** False when the row has another version by now, or was mended. */
export async function editSnag(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<SnagFields>,
): Promise<boolean> {
  const { count } = await tx.snag.updateMany({
    where: { firmId: tx.firmId, id, version, state: "open" },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

/** False when it was mended meanwhile. */
export async function followUp(
  tx: FirmTransaction,
  id: string,
  by: { followUpJobId?: string; followUpVisitId?: string },
): Promise<boolean> {
  const { count } = await tx.snag.updateMany({
    where: { firmId: tx.firmId, id, state: "open" },
    data: { ...by, version: { increment: 1 } },
  });
  return count === 1;
}

/** Which of the photos are held on any of the jobs. */
export async function photosHeldOn(
  tx: FirmTransaction,
  jobIds: string[],
  sha256: string[],
): Promise<Set<string>> {
  const rows = await tx.photo.findMany({
    where: { firmId: tx.firmId, jobId: { in: jobIds }, sha256: { in: sha256 } },
    select: { sha256: true },
  });
  return new Set(rows.map((row) => row.sha256));
}

export interface Mending {
  mendedById: string;
  mendedPhotos: string[];
  mendedNote: string | null;
}

/** False when it was mended before. */
export async function markMended(
  tx: FirmTransaction,
  id: string,
  mending: Mending,
  now: Date,
): Promise<boolean> {
  const { count } = await tx.snag.updateMany({
    where: { firmId: tx.firmId, id, state: "open" },
    data: { state: "mended", ...mending, mendedAt: now, version: { increment: 1 } },
  });
  return count === 1;
}
