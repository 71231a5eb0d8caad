import type { MOVEMENT_KINDS } from "./consumable-schemas.ts";
import type { ConsumableRow, MovementRow } from "./consumable-store.ts";
import type { StockUnitRow } from "./store.ts";

export function shownStock({ jobId, jobReference, ...row }: StockUnitRow) {
  return {
    ...row,
    quarantinedAt: row.quarantinedAt?.toISOString() ?? null,
    receivedAt: row.receivedAt?.toISOString() ?? null,
    job: jobId && jobReference ? { id: jobId, reference: jobReference } : null,
  };
}

export const shownConsumable = (row: ConsumableRow) => ({
  ...row,
  isLow: row.leastAmount !== null && row.amount < row.leastAmount,
});

export const shownMovement = ({ person, job, amount, at, ...row }: MovementRow) => ({
  id: row.id,
  kind: row.kind as (typeof MOVEMENT_KINDS)[number],
  amount: Number(amount),
  place: row.place,
  jobId: row.jobId,
  jobReference: job?.reference ?? null,
  deliveryNote: row.deliveryNote,
  note: row.note,
  personId: row.personId,
  personName: person.name,
  at: at.toISOString(),
});
