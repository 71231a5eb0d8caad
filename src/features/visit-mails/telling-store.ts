// What customers are to be told of their visits. That something is to be told is written by the
// database itself, in the transaction that books, moves or cancels, and settled here.
import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { VisitStand } from "../../domain/calendar/telling.ts";

const WITH_CUSTOMER = { job: { include: { site: { include: { customer: true } } } } } as const;
const VISIT_KINDS = { startsWith: "visit-" } as const;

export async function readVisit(tx: FirmTransaction, id: string) {
  return tx.visit.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_CUSTOMER,
  });
}

export type ToldVisit = NonNullable<Awaited<ReturnType<typeof readVisit>>>;

/** Nobody is told of a visit that has begun. */
export async function dropBegun(tx: FirmTransaction, now: Date): Promise<void> {
  await tx.$executeRaw`UPDATE visit_telling t SET due_at = NULL, changed_at = NULL FROM visit v
    WHERE t.firm_id = ${tx.firmId}::uuid AND t.due_at IS NOT NULL
      AND v.firm_id = t.firm_id AND v.id = t.visit_id AND v.starts_at <= ${now}`;
}

export async function isAnyDue(tx: FirmTransaction, now: Date): Promise<boolean> {
  const due = await tx.visitTelling.findFirst({
    where: { firmId: tx.firmId, dueAt: { lte: now } },
    select: { visitId: true },
  });
  return due !== null;
}

/**
 * A visit whose customer is to be told by now and can be written to. Its telling is locked: who
 * moves the visit meanwhile waits, and then makes it due again.
 */
export async function takeDueVisit(tx: FirmTransaction, now: Date): Promise<ToldVisit | undefined> {
  const [due] = await tx.$queryRaw<{ visitId: string }[]>`
    SELECT t.visit_id AS "visitId" FROM visit_telling t
    JOIN visit v ON v.firm_id = t.firm_id AND v.id = t.visit_id
    JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    JOIN customer c ON c.firm_id = s.firm_id AND c.id = s.customer_id
    WHERE t.firm_id = ${tx.firmId}::uuid AND t.due_at <= ${now}
      AND c.email IS NOT NULL AND c.email_failing_at IS NULL
    ORDER BY t.due_at, t.visit_id LIMIT 1 FOR UPDATE OF t SKIP LOCKED`;
  return due ? ((await readVisit(tx, due.visitId)) ?? undefined) : undefined;
}

export async function settleTelling(tx: FirmTransaction, visitId: string): Promise<boolean> {
  const { count } = await tx.visitTelling.updateMany({
    where: { firmId: tx.firmId, visitId, dueAt: { not: null } },
    data: { dueAt: null, changedAt: null },
  });
  return count === 1;
}

/** Mails about the visit that have not left: what they say no longer holds. */
export async function withdrawUnsent(tx: FirmTransaction, visitId: string, now: Date) {
  await tx.mail.updateMany({
    where: {
      ...{ firmId: tx.firmId, visitId, kind: VISIT_KINDS, state: { in: ["waiting", "held"] } },
      OR: [{ claimedUntil: null }, { claimedUntil: { lte: now } }],
    },
    data: { state: "cancelled", lastError: "A later change of the visit made it void." },
  });
}

/** What the customer was told last, by a mail that has not come to nothing or by the office. */
export async function lastTold(
  tx: FirmTransaction,
  visitId: string,
): Promise<(VisitStand & { toldAt: Date }) | undefined> {
  const lost = { state: { in: ["cancelled", "failed", "returned"] } };
  const row = await tx.visitTold.findFirst({
    where: { firmId: tx.firmId, visitId, OR: [{ mailId: null }, { mail: { NOT: lost } }] },
    orderBy: { id: "desc" },
  });
  if (!row) return undefined;
  return { ...standOf(row), toldAt: row.toldAt };
}

interface Standing {
  state: string;
  startsAt: Date;
  endsAt: Date;
}

export const standOf = ({ state, startsAt, endsAt }: Standing): VisitStand => ({
  state: state === "cancelled" ? "cancelled" : "booked",
  startsAt: startsAt.toISOString(),
  endsAt: endsAt.toISOString(),
});

/** Without a mail: the office told it another way. */
export async function noteTold(
  tx: FirmTransaction,
  { id: visitId, state, startsAt, endsAt }: Standing & { id: string },
  told: { mailId?: string; at: Date },
): Promise<void> {
  const { firmId } = tx;
  const mailId = told.mailId ?? null;
  await tx.visitTold.create({
    data: { firmId, id: uuidv7(), visitId, mailId, state, startsAt, endsAt, toldAt: told.at },
  });
}
