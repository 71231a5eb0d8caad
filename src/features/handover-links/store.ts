import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

interface NewLink {
  jobId: string;
  secretHash: string;
  language: string;
  createdById: string;
  createdAt: Date;
  expiresAt: Date;
}

export async function addLink(tx: FirmTransaction, fields: NewLink) {
  return tx.handoverLink.create({ data: { firmId: tx.firmId, id: uuidv7(), ...fields } });
}

export type LinkRow = Awaited<ReturnType<typeof addLink>>;

export async function noteMail(tx: FirmTransaction, id: string, mailId: string): Promise<LinkRow> {
  return tx.handoverLink.update({
    where: { firmId_id: { firmId: tx.firmId, id } },
    data: { mailId },
  });
}

export async function countLiveLinks(
  tx: FirmTransaction,
  jobId: string,
  now: Date,
): Promise<number> {
  return tx.handoverLink.count({
    where: { firmId: tx.firmId, jobId, revokedAt: null, expiresAt: { gt: now } },
  });
}

/** The latest first. */
export async function listLinks(
  tx: FirmTransaction,
  jobId: string,
  page: { before?: string | undefined; most: number },
) {
  const { before, most } = page;
  return tx.handoverLink.findMany({
    where: { firmId: tx.firmId, jobId, ...(before ? { id: { lt: before } } : {}) },
    orderBy: { id: "desc" },
    take: most,
    include: { createdBy: { select: { name: true } } },
  });
}

export async function findLink(tx: FirmTransaction, id: string): Promise<LinkRow | null> {
  return tx.handoverLink.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** False when it had ended before. */
export async function revokeLink(tx: FirmTransaction, id: string, now: Date): Promise<boolean> {
  const { count } = await tx.handoverLink.updateMany({
    where: { firmId: tx.firmId, id, revokedAt: null },
    data: { revokedAt: now },
  });
  return count === 1;
}

export async function countOpening(tx: FirmTransaction, id: string, now: Date): Promise<void> {
  await tx.handoverLink.update({
    where: { firmId_id: { firmId: tx.firmId, id } },
    data: { opened: { increment: 1 }, openedAt: now },
  });
}
