import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface KeyFields {
  name: string;
  secretHash: string;
  scopes: string[];
  expiresAt: Date | null;
  createdById: string;
}

export async function addKey(tx: FirmTransaction, fields: KeyFields) {
  return tx.apiKey.create({
    data: { firmId: tx.firmId, id: uuidv7(), ...fields },
    include: WITH_MAKER,
  });
}

const WITH_MAKER = { createdBy: { select: { name: true, active: true, language: true } } } as const;

/** The latest first. */
export async function listKeys(
  tx: FirmTransaction,
  { after, most }: { after: string | undefined; most: number },
) {
  return tx.apiKey.findMany({
    where: { firmId: tx.firmId, ...(after ? { id: { lt: after } } : {}) },
    include: WITH_MAKER,
    orderBy: { id: "desc" },
    take: most,
  });
}

export async function keysById(tx: FirmTransaction, ids: string[]) {
  return tx.apiKey.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: WITH_MAKER,
    take: ids.length,
  });
}

export type KeyRow = Awaited<ReturnType<typeof listKeys>>[number];

export async function findKey(tx: FirmTransaction, id: string) {
  return tx.apiKey.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_MAKER,
  });
}

/** False when it was revoked before. */
export async function revokeKey(tx: FirmTransaction, id: string, now: Date): Promise<boolean> {
  const { count } = await tx.apiKey.updateMany({
    where: { firmId: tx.firmId, id, revokedAt: null },
    data: { revokedAt: now },
  });
  return count === 1;
}

/** To the minute: a busy key does not write its row with each request. */
export async function noteUse(tx: FirmTransaction, id: string, now: Date): Promise<void> {
  await tx.apiKey.updateMany({
    where: {
      ...{ firmId: tx.firmId, id },
      OR: [{ lastUsedAt: null }, { lastUsedAt: { lt: new Date(now.getTime() - 60_000) } }],
    },
    data: { lastUsedAt: now },
  });
}
