import type { FirmTransaction } from "../../db/scope.ts";

/** Open jobs without a booked visit that has not ended, in the order in which they were opened. */
export async function unplacedJobs(
  tx: FirmTransaction,
  { kind, after, most, now }: { kind?: string; after?: string; most: number; now: Date },
) {
  return tx.job.findMany({
    where: {
      ...{ firmId: tx.firmId, state: "open" },
      ...(kind ? { kind } : {}),
      ...(after ? { id: { gt: after } } : {}),
      visits: { none: { state: "booked", endsAt: { gt: now } } },
    },
    select: {
      id: true,
      reference: true,
      kind: true,
      title: true,
      createdAt: true,
      site: {
        select: {
          id: true,
          reference: true,
          name: true,
          addressLine: true,
          locality: true,
          timeZone: true,
        },
      },
      planVersion: { select: { planId: true } },
      recurringInspection: { select: { dueOn: true } },
      visits: {
        where: { state: "booked" },
        select: { startsAt: true },
        orderBy: { startsAt: "desc" },
        take: 1,
      },
    },
    orderBy: { id: "asc" },
    take: most,
  });
}
