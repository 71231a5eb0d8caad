import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export async function addInvitation(
  tx: FirmTransaction,
  fields: { personId: string; secretHash: string; createdById: string; expiresAt: Date },
): Promise<string> {
  const { id } = await tx.invitation.create({
    data: { firmId: tx.firmId, id: uuidv7(), ...fields },
    select: { id: true },
  });
  return id;
}

/** Earlier ones open nothing any more. */
export async function revokeInvitations(
  tx: FirmTransaction,
  personId: string,
  now: Date,
): Promise<void> {
  await tx.invitation.updateMany({
    where: { firmId: tx.firmId, personId, usedAt: null, revokedAt: null },
    data: { revokedAt: now },
  });
}

export async function findInvitation(tx: FirmTransaction, id: string) {
  return tx.invitation.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: { person: { select: { id: true, name: true, email: true, active: true } } },
  });
}

/** False when it was used, revoked or has run out: an invitation opens once. */
export async function useInvitation(tx: FirmTransaction, id: string, now: Date): Promise<boolean> {
  const { count } = await tx.invitation.updateMany({
    where: { firmId: tx.firmId, id, usedAt: null, revokedAt: null, expiresAt: { gt: now } },
    data: { usedAt: now },
  });
  return count === 1;
}

/** Ids of people whose invitation still opens. */
export async function invitedPeople(tx: FirmTransaction, now: Date): Promise<Set<string>> {
  const rows = await tx.invitation.findMany({
    where: { firmId: tx.firmId, usedAt: null, revokedAt: null, expiresAt: { gt: now } },
    select: { personId: true },
  });
  return new Set(rows.map(({ personId }) => personId));
}
