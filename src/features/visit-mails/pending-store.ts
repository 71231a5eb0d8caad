import type { FirmTransaction } from "../../db/scope.ts";

/** Visits that their customers are still to be told of, the next one first. */
export async function listPending(tx: FirmTransaction, now: Date, most: number) {
  return tx.visitTelling.findMany({
    where: { firmId: tx.firmId, dueAt: { not: null }, visit: { startsAt: { gt: now } } },
    include: {
      visit: { include: { job: { include: { site: { include: { customer: true } } } } } },
    },
    orderBy: [{ dueAt: "asc" }, { visitId: "asc" }],
    take: most,
  });
}

export type PendingTelling = Awaited<ReturnType<typeof listPending>>[number];
