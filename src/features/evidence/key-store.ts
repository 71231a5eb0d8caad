import type { FirmTransaction } from "../../db/scope.ts";

export interface KeyRow {
  id: string;
  /** PEM. */
  certificate: string;
  /** Fingerprint: SHA-256 of its DER. */
  sha256: string;
  sealedKey: Uint8Array;
  createdAt: Date;
}

/** Whoever makes a key is alone, so that a firm's first use makes one key. */
export async function lockKeys(tx: FirmTransaction): Promise<void> {
  await tx.$executeRaw`
    SELECT pg_advisory_xact_lock(hashtextextended('evidence ' || ${tx.firmId}, 0))`;
}

export async function newestKey(tx: FirmTransaction): Promise<KeyRow | null> {
  return tx.evidenceKey.findFirst({ where: { firmId: tx.firmId }, orderBy: { id: "desc" } });
}

const KEYS_MOST = 200;

/** The newest first. */
export async function listKeys(tx: FirmTransaction): Promise<KeyRow[]> {
  return tx.evidenceKey.findMany({
    where: { firmId: tx.firmId },
    orderBy: { id: "desc" },
    take: KEYS_MOST,
  });
}

export async function addKey(tx: FirmTransaction, row: KeyRow): Promise<KeyRow> {
  const sealedKey = new Uint8Array(row.sealedKey);
  return tx.evidenceKey.create({ data: { firmId: tx.firmId, ...row, sealedKey } });
}

export interface SignatureRow {
  id: string;
  jobId: string | null;
  keyId: string;
  manifestSha256: string;
  signature: Uint8Array;
  createdAt: Date;
}

export type KeptSignature = Pick<SignatureRow, "id" | "signature">;

export async function findSignature(
  tx: FirmTransaction,
  manifestSha256: string,
): Promise<KeptSignature | undefined> {
  const where = { firmId_manifestSha256: { firmId: tx.firmId, manifestSha256 } };
  const select = { id: true, signature: true } as const;
  return (await tx.evidenceSignature.findUnique({ where, select })) ?? undefined;
}

export async function addSignature(tx: FirmTransaction, row: SignatureRow): Promise<void> {
  const signature = new Uint8Array(row.signature);
  await tx.evidenceSignature.create({ data: { firmId: tx.firmId, ...row, signature } });
}
