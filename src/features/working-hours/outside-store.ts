import type { FirmTransaction } from "../../db/scope.ts";

/** Who is booked from a moment on, soonest first; of everybody, or of one person. */
export async function comingBookings(
  tx: FirmTransaction,
  { from, personId, most }: { from: Date; personId?: string | undefined; most: number },
) {
  const site = { select: { timeZone: true } };
  const job = { select: { id: true, reference: true, site } };
  return tx.visitBooking.findMany({
    where: {
      ...{ firmId: tx.firmId, endsAt: { gt: from }, visit: { state: "booked" } },
      personId: personId ?? { not: null },
    },
    select: {
      ...{ startsAt: true, endsAt: true, person: { select: { id: true, name: true } } },
      visit: { select: { job } },
    },
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take: most,
  });
}
