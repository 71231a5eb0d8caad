import type { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import type { PendingTelling } from "./pending-store.ts";
import type { VisitTelling } from "./schemas.ts";
import { noteTold, readVisit, settleTelling } from "./telling-store.ts";

export function shownTelling({ dueAt, visit }: PendingTelling): z.infer<typeof VisitTelling> {
  const { site, reference } = visit.job;
  const { customer } = site;
  return {
    visitId: visit.id,
    jobReference: reference,
    customer: { id: customer.id, name: customer.name },
    state: visit.state as "booked" | "cancelled",
    startsAt: visit.startsAt.toISOString(),
    timeZone: site.timeZone,
    dueAt: (dueAt ?? visit.updatedAt).toISOString(),
    blockedBy: customer.email === null ? "no-address" : failing(customer.emailFailingAt),
  };
}

const failing = (at: Date | null) => (at === null ? null : ("failing-address" as const));

/** The office has told the customer itself: no mail is written about how the visit stands now. */
export async function toldByOffice(tx: FirmTransaction, visitId: string, now: Date) {
  const settled = await settleTelling(tx, visitId);
  const visit = settled ? await readVisit(tx, visitId) : null;
  if (!visit) {
    throw new Problem("not-found", "No mail about a visit of this id is about to be written.");
  }
  await noteTold(tx, visit, { at: now });
}
