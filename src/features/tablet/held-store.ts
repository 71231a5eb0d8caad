import type { FirmTransaction } from "../../db/scope.ts";

export interface HeldFilter {
  jobId?: string;
  decided?: boolean;
  after?: string;
  most: number;
}

const WITH_NAMES = {
  job: { select: { reference: true } },
  person: { select: { name: true } },
  sentBy: { select: { name: true } },
  decidedBy: { select: { name: true } },
} as const;

export async function listHeld(tx: FirmTransaction, filter: HeldFilter) {
  const { jobId, decided, after, most } = filter;
  return tx.tabletOp.findMany({
    where: {
      firmId: tx.firmId,
      outcome: "held",
      ...(jobId ? { jobId } : {}),
      ...(decided === undefined ? {} : { decidedAt: decided ? { not: null } : null }),
      ...(after ? { opId: { gt: after } } : {}),
    },
    include: WITH_NAMES,
    orderBy: { opId: "asc" },
    take: most,
  });
}

export async function countUndecided(tx: FirmTransaction, jobId?: string): Promise<number> {
  return tx.tabletOp.count({
    where: { firmId: tx.firmId, outcome: "held", decidedAt: null, ...(jobId ? { jobId } : {}) },
  });
}

/** Locked, so that two people do not decide at once. */
export async function takeHeld(tx: FirmTransaction, opId: string) {
  await tx.$queryRaw`SELECT op_id FROM tablet_op
    WHERE firm_id = ${tx.firmId}::uuid AND op_id = ${opId}::uuid FOR UPDATE`;
  return tx.tabletOp.findUnique({
    where: { firmId_opId: { firmId: tx.firmId, opId }, outcome: "held" },
    include: WITH_NAMES,
  });
}

export interface DecisionRow {
  decision: "applied" | "dismissed";
  decidedById: string;
  decidedAt: Date;
  decisionReason?: string;
  decisionReply?: object;
}

export async function keepDecision(tx: FirmTransaction, opId: string, decision: DecisionRow) {
  return tx.tabletOp.update({
    where: { firmId_opId: { firmId: tx.firmId, opId } },
    data: { ...decision },
    include: WITH_NAMES,
  });
}

export async function findPerson(tx: FirmTransaction, id: string) {
  return tx.person.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    select: { name: true, roles: true },
  });
}
