import type { FirmTransaction } from "../../db/scope.ts";

const WITH_PLACE = { crew: true, job: { include: { site: true } } } as const;

export interface FeedWindow {
  from: Date;
  to: Date;
  /** Cancelled visits that began before then are no news. */
  cancelledFrom: Date;
  most: number;
}

/**
 * Visits that a person is booked for, and cancelled ones of the crews they are in: a cancellation
 * frees everybody, so who was booked is known no longer.
 */
export async function listFeedVisits(tx: FirmTransaction, personId: string, window: FeedWindow) {
  const { from, to, cancelledFrom, most } = window;
  return tx.visit.findMany({
    where: {
      firmId: tx.firmId,
      startsAt: { gte: from, lt: to },
      OR: [
        { state: "booked", bookings: { some: { personId } } },
        {
          state: "cancelled",
          startsAt: { gte: cancelledFrom },
          crew: { members: { some: { personId } } },
        },
      ],
    },
    include: WITH_PLACE,
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take: most,
  });
}

export type FeedVisit = Awaited<ReturnType<typeof listFeedVisits>>[number];

/** Undefined when the person no longer signs in, and so has no calendar. */
export async function findFeedReader(tx: FirmTransaction, personId: string) {
  const person = await tx.person.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id: personId }, active: true },
    select: { name: true, language: true, firm: { select: { name: true, language: true } } },
  });
  return person ?? undefined;
}
