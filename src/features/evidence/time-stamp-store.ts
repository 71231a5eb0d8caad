import type { FirmTransaction } from "../../db/scope.ts";
import type { KeptSignature } from "./key-store.ts";

export interface TimeStampRow {
  signatureId: string;
  service: string;
  response: Uint8Array;
  stampedAt: Date;
}

const byId = (tx: FirmTransaction, signatureId: string) => ({
  firmId_signatureId: { firmId: tx.firmId, signatureId },
});

export async function findTimeStamp(
  tx: FirmTransaction,
  signatureId: string,
): Promise<TimeStampRow | null> {
  return tx.evidenceTimeStamp.findUnique({ where: byId(tx, signatureId) });
}

/** Keeps a stamp; of two that come at once, the first is kept, and returned. */
export async function keepTimeStamp(tx: FirmTransaction, row: TimeStampRow): Promise<TimeStampRow> {
  const response = new Uint8Array(row.response);
  await tx.evidenceTimeStamp.createMany({
    data: [{ firmId: tx.firmId, ...row, response }],
    skipDuplicates: true,
  });
  return tx.evidenceTimeStamp.findUniqueOrThrow({ where: byId(tx, row.signatureId) });
}

/** The newest first. */
export async function unstampedSignatures(
  tx: FirmTransaction,
  { since, most }: { since: Date; most: number },
): Promise<KeptSignature[]> {
  return tx.evidenceSignature.findMany({
    where: { firmId: tx.firmId, createdAt: { gte: since }, timeStamp: { is: null } },
    select: { id: true, signature: true },
    orderBy: { id: "desc" },
    take: most,
  });
}
