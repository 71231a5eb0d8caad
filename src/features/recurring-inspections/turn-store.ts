// The turns of inspections that come round. Each is opened under its inspection's lock, once.
import type { FirmTransaction } from "../../db/scope.ts";
import { findRecurring, type RecurringRow } from "./store.ts";

/** Ids of those whose next turn opens on this day or has to have been opened, at most so many. */
export async function dueToOpen(tx: FirmTransaction, today: string, most: number) {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT r.id FROM recurring_inspection r
    JOIN site s ON s.firm_id = r.firm_id AND s.id = r.site_id AND s.archived_at IS NULL
    WHERE r.firm_id = ${tx.firmId}::uuid AND r.ended_at IS NULL
      AND r.next_due_on - r.horizon_days <= ${today}::date
      AND NOT EXISTS (
        SELECT FROM recurring_inspection_job t
        JOIN job j ON j.firm_id = t.firm_id AND j.id = t.job_id AND j.state = 'open'
        WHERE t.firm_id = r.firm_id AND t.recurring_id = r.id)
    ORDER BY r.next_due_on, r.id LIMIT ${most}`;
  return rows.map(({ id }) => id);
}

/** The inspection, locked for this transaction; undefined while another one has it. */
export async function takeRecurring(
  tx: FirmTransaction,
  id: string,
): Promise<RecurringRow | undefined> {
  const [row] = await tx.$queryRaw<{ id: string }[]>`
    SELECT id FROM recurring_inspection WHERE firm_id = ${tx.firmId}::uuid AND id = ${id}::uuid
    FOR UPDATE SKIP LOCKED`;
  return row ? ((await findRecurring(tx, id)) ?? undefined) : undefined;
}

export async function installedUnitIds(
  tx: FirmTransaction,
  siteId: string,
  most: number,
): Promise<string[]> {
  const rows = await tx.unit.findMany({
    where: { firmId: tx.firmId, siteId, state: "installed" },
    select: { id: true },
    orderBy: [{ bankId: "asc" }, { bankPosition: "asc" }, { id: "asc" }],
    take: most,
  });
  return rows.map(({ id }) => id);
}

export async function addTurn(
  tx: FirmTransaction,
  turn: { recurringId: string; number: number; dueOn: string; jobId: string },
  next: { number: number; dueOn: string },
): Promise<void> {
  const { firmId } = tx;
  const { recurringId, number, dueOn, jobId } = turn;
  await tx.recurringInspectionJob.create({
    data: { firmId, recurringId, number, dueOn: new Date(dueOn), jobId },
  });
  await tx.recurringInspection.updateMany({
    where: { firmId, id: recurringId },
    data: {
      nextNumber: next.number,
      nextDueOn: new Date(next.dueOn),
      heldUpBy: null,
      version: { increment: 1 },
    },
  });
}

/** Why its job could not be opened, for whoever looks. */
export async function noteHeldUp(tx: FirmTransaction, id: string, reason: string): Promise<void> {
  await tx.recurringInspection.updateMany({
    where: { firmId: tx.firmId, id, OR: [{ heldUpBy: null }, { heldUpBy: { not: reason } }] },
    data: { heldUpBy: reason, version: { increment: 1 } },
  });
}
