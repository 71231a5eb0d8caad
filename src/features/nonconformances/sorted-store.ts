// The nonconformances of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, momentText, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export const COLUMNS = ["reference", "kind", "state", "opened", "due", "effect"] as const;
/** Days that are not set stand after all others. */
const ORDERS: Readonly<Record<string, string>> = {
  reference: "n.reference",
  kind: "n.kind",
  state: "n.state",
  opened: momentText("n.opened_at"),
  due: "coalesce(n.due_on::text, '9999')",
  effect: "coalesce(n.effect_due_on::text, '9999')",
};

const CONDITIONS = [
  "n.firm_id = $1::uuid",
  "($2::text IS NULL OR n.state = $2)",
  "($3::text IS NULL OR n.kind = $3)",
  "($4::date IS NULL OR (n.state <> 'closed' AND n.due_on < $4))",
  "($5::date IS NULL OR (n.state <> 'closed' AND n.effect_due_on < $5))",
];

export interface SortedFilter {
  state?: string | undefined;
  kind?: string | undefined;
  /** Not closed and due before this day. */
  dueBefore?: string | undefined;
  /** Not closed, their effect to be seen before this day. */
  effectBefore?: string | undefined;
  sorting: Sorting;
  most: number;
}

export async function sortedNonconformances(tx: FirmTransaction, filter: SortedFilter) {
  const { state, kind, dueBefore, effectBefore, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "n.id", from: "nonconformance n", where: CONDITIONS },
    values: [tx.firmId, state ?? null, kind ?? null, dueBefore ?? null, effectBefore ?? null],
    by: ORDERS[sorting.column] ?? "n.id::text",
    ...{ id: "n.id", descending: sorting.descending, after: sorting.after, most },
  });
  const ids = found.map(({ id }) => id);
  const rows = await tx.nonconformance.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    take: most,
  });
  return inPlaces(rows, found);
}
