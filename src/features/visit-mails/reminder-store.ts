import type { FirmTransaction } from "../../db/scope.ts";
import type { ToldVisit } from "./telling-store.ts";

const WITH_CUSTOMER = {
  job: { include: { site: { include: { customer: true } } } },
  telling: true,
} as const;

/**
 * Booked visits between two moments whose customers can be written to, were not reminded of this
 * start, and have nothing else to be told first.
 */
export async function listUnreminded(
  tx: FirmTransaction,
  after: Date,
  before: Date,
): Promise<ToldVisit[]> {
  const rows = await tx.visit.findMany({
    where: {
      firmId: tx.firmId,
      state: "booked",
      startsAt: { gt: after, lt: before },
      job: { site: { customer: { email: { not: null }, emailFailingAt: null } } },
      OR: [{ telling: { is: null } }, { telling: { dueAt: null } }],
    },
    include: WITH_CUSTOMER,
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
  });
  return rows.filter(
    ({ telling, startsAt }) => telling?.remindedStartsAt?.getTime() !== startsAt.getTime(),
  );
}

/** False when somebody else has taken the reminder of this start. */
export async function takeReminder(
  tx: FirmTransaction,
  { id: visitId, startsAt }: Pick<ToldVisit, "id" | "startsAt">,
): Promise<boolean> {
  const { firmId } = tx;
  await tx.visitTelling.createMany({ data: [{ firmId, visitId }], skipDuplicates: true });
  const count = await tx.$executeRaw`UPDATE visit_telling SET reminded_starts_at = ${startsAt}
    WHERE firm_id = ${firmId}::uuid AND visit_id = ${visitId}::uuid AND due_at IS NULL
      AND reminded_starts_at IS DISTINCT FROM ${startsAt}`;
  return count === 1;
}
