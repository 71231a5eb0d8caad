import type { FirmTransaction } from "../../db/scope.ts";

export interface TwoStep {
  id: string;
  email: string;
  totpSealed: Uint8Array | null;
  totpConfirmedAt: Date | null;
  totpLastStep: bigint | null;
  recoveryHashes: string[];
}

export async function readTwoStep(tx: FirmTransaction, personId: string): Promise<TwoStep | null> {
  return tx.person.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id: personId } },
    select: {
      ...{ id: true, email: true, totpSealed: true, totpConfirmedAt: true },
      ...{ totpLastStep: true, recoveryHashes: true },
    },
  });
}

/** A secret that waits for its first code. */
export async function keepSecret(
  tx: FirmTransaction,
  personId: string,
  sealed: Uint8Array<ArrayBuffer>,
): Promise<void> {
  await tx.person.updateMany({
    where: { firmId: tx.firmId, id: personId, totpConfirmedAt: null },
    data: { totpSealed: sealed, totpLastStep: null },
  });
}

export async function confirmSecret(
  tx: FirmTransaction,
  personId: string,
  fields: { step: bigint; recoveryHashes: string[]; now: Date },
): Promise<boolean> {
  const { step, recoveryHashes, now } = fields;
  const { count } = await tx.person.updateMany({
    where: { firmId: tx.firmId, id: personId, totpConfirmedAt: null, totpSealed: { not: null } },
    data: { totpConfirmedAt: now, totpLastStep: step, recoveryHashes },
  });
  return count === 1;
}

/** Uses a step up; false where it, or a later one, was used before: a code counts once. */
export async function useStep(
  tx: FirmTransaction,
  personId: string,
  step: bigint,
): Promise<boolean> {
  const { count } = await tx.person.updateMany({
    where: {
      ...{ firmId: tx.firmId, id: personId },
      OR: [{ totpLastStep: null }, { totpLastStep: { lt: step } }],
    },
    data: { totpLastStep: step },
  });
  return count === 1;
}

/** Uses a recovery code up; false where there is no such code (any more). */
export async function useRecovery(
  tx: FirmTransaction,
  personId: string,
  hash: string,
): Promise<boolean> {
  const changed = await tx.$executeRaw`UPDATE person
    SET recovery_hashes = array_remove(recovery_hashes, ${hash})
    WHERE firm_id = ${tx.firmId}::uuid AND id = ${personId}::uuid
      AND ${hash} = ANY (recovery_hashes)`;
  return changed === 1;
}

export async function removeTwoStep(tx: FirmTransaction, personId: string): Promise<void> {
  await tx.person.updateMany({
    where: { firmId: tx.firmId, id: personId },
    data: { totpSealed: null, totpConfirmedAt: null, totpLastStep: null, recoveryHashes: [] },
  });
}

/** For which roles the owner asks for the second step. */
export async function twoStepRoles(tx: FirmTransaction): Promise<string[]> {
  const firm = await tx.firm.findUniqueOrThrow({ where: { id: tx.firmId } });
  return firm.twoStepRoles;
}

export async function setTwoStepRoles(tx: FirmTransaction, roles: string[]): Promise<void> {
  await tx.firm.updateMany({ where: { id: tx.firmId }, data: { twoStepRoles: roles } });
}
