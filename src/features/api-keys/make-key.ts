import type { FirmTransaction } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import { newSecret, secretHash, tokenText } from "./key-token.ts";
import { addKey, type KeyRow } from "./store.ts";

export interface KeyWish {
  name: string;
  scopes: string[];
  expiresAt?: string | undefined;
}

/** The key and the text that a program sends, which nobody can read again afterwards. */
export async function makeKey(
  tx: FirmTransaction,
  { name, scopes, expiresAt }: KeyWish,
  personId: string,
  now: Date,
): Promise<{ row: KeyRow; token: string }> {
  const until = expiresAt === undefined ? null : new Date(expiresAt);
  if (until !== null && until <= now) throw invalid("/body/expiresAt", "lies in the past");
  const secret = newSecret();
  const fields = { name, scopes, secretHash: secretHash(secret), expiresAt: until };
  const row = await addKey(tx, { ...fields, createdById: personId });
  return { row, token: tokenText({ firmId: tx.firmId, keyId: row.id, secret }) };
}

export const shownKey = ({ createdBy, ...row }: KeyRow) => ({
  ...{ id: row.id, name: row.name, scopes: row.scopes, createdByName: createdBy.name },
  createdAt: row.createdAt.toISOString(),
  expiresAt: row.expiresAt?.toISOString() ?? null,
  lastUsedAt: row.lastUsedAt?.toISOString() ?? null,
  revokedAt: row.revokedAt?.toISOString() ?? null,
});
