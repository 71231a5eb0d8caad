import type { FirmTransaction } from "./scope.ts";

export interface KeyClaim {
  personId: string;
  key: string;
  operation: string;
  bodySha256: string;
}

/** Takes the key, or returns the row of the request that took it; waits for one still under way. */
export async function claimKey(tx: FirmTransaction, claim: KeyClaim) {
  const { firmId } = tx;
  const { count } = await tx.idempotencyKey.createMany({
    data: [{ firmId, ...claim }],
    skipDuplicates: true,
  });
  if (count === 1) return undefined;
  const { personId, key } = claim;
  return tx.idempotencyKey.findUniqueOrThrow({
    where: { firmId_personId_key: { firmId, personId, key } },
  });
}

export async function storeReply(
  tx: FirmTransaction,
  { personId, key }: Pick<KeyClaim, "personId" | "key">,
  reply: { status: number; location: string | null; response: object },
): Promise<void> {
  const { firmId } = tx;
  await tx.idempotencyKey.update({
    where: { firmId_personId_key: { firmId, personId, key } },
    data: reply,
  });
}
