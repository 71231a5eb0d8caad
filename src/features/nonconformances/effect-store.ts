import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

/** A correction is looked at a few times; a nonconformance takes so many looks at most. */
export const EFFECT_CHECKS_MOST = 50;

const WITH_NAME = { checkedBy: { select: { name: true } } } as const;

export interface EffectCheckFields {
  nonconformanceId: string;
  verdict: string;
  note: string;
  cause: string;
  correction: string;
  checkedById: string;
}

export async function addEffectCheck(tx: FirmTransaction, fields: EffectCheckFields, now: Date) {
  return tx.effectCheck.create({
    data: { firmId: tx.firmId, id: uuidv7(), ...fields, checkedAt: now },
    include: WITH_NAME,
  });
}

/** The latest first. */
export async function listEffectChecks(tx: FirmTransaction, nonconformanceId: string) {
  return tx.effectCheck.findMany({
    where: { firmId: tx.firmId, nonconformanceId },
    include: WITH_NAME,
    orderBy: { id: "desc" },
    take: EFFECT_CHECKS_MOST,
  });
}
