import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { type RecurringRow, WITH_ALL } from "./store.ts";

export const RECURRING_COLUMNS = ["nextDueOn", "site", "title"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  nextDueOn: "r.next_due_on::text",
  site: "s.reference",
  title: "fold_text(r.title)",
};

export interface RecurringPageFilter {
  siteId?: string | undefined;
  dueBefore?: string | undefined;
  ended: boolean;
  sorting: Sorting;
  most: number;
}

export async function recurringIds(tx: FirmTransaction, filter: RecurringPageFilter) {
  const { siteId, dueBefore, ended, sorting, most } = filter;
  return sortedRows<{ id: string }>(tx, {
    select: "r.id",
    from: "recurring_inspection r JOIN site s ON s.firm_id = r.firm_id AND s.id = r.site_id",
    where: [
      "r.firm_id = $1::uuid",
      `r.ended_at IS ${ended ? "NOT NULL" : "NULL"}`,
      "($2::uuid IS NULL OR r.site_id = $2::uuid)",
      "($3::date IS NULL OR r.next_due_on < $3::date)",
    ],
    values: [tx.firmId, siteId ?? null, dueBefore ?? null],
    by: ORDERS[sorting.column] ?? "r.next_due_on::text",
    id: "r.id",
    descending: sorting.descending,
    after: sorting.after,
    most,
  });
}

/** The rows of these ids, in their order. */
export async function recurringOf(
  tx: FirmTransaction,
  ids: readonly string[],
): Promise<RecurringRow[]> {
  const rows = await tx.recurringInspection.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
    include: WITH_ALL,
  });
  const byId = new Map(rows.map((row) => [row.id, row]));
  return ids.flatMap((id) => byId.get(id) ?? []);
}
