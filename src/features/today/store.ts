import type { FirmTransaction } from "../../db/scope.ts";

/** A day of a small firm; more than this is not one day's work. */
const VISITS_MOST = 200;

export async function visitsBetween(tx: FirmTransaction, from: Date, to: Date) {
  return tx.visit.findMany({
    where: { firmId: tx.firmId, state: "booked", startsAt: { lt: to }, endsAt: { gt: from } },
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take: VISITS_MOST,
    include: { crew: true, job: { include: { site: { include: { customer: true } } } } },
  });
}
