import type { FirmTransaction } from "../../db/scope.ts";

const JOBS_MOST = 20;

/** The latest jobs that work by some version of the plan. */
export async function jobsByPlan(tx: FirmTransaction, planId: string) {
  return tx.job.findMany({
    where: { firmId: tx.firmId, planVersion: { planId } },
    select: {
      id: true,
      reference: true,
      title: true,
      state: true,
      planVersion: { select: { number: true } },
    },
    orderBy: { id: "desc" },
    take: JOBS_MOST,
  });
}
