// The plans of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { plansById } from "./store.ts";

export const COLUMNS = ["title", "code"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  title: "fold_text(p.title)",
  code: "p.code",
};

const CONDITIONS = [
  "p.firm_id = $1::uuid",
  "($2::text IS NULL OR strpos(lower(p.title), lower($2)) > 0)",
];

export async function sortedPlans(
  tx: FirmTransaction,
  filter: { title?: string | undefined; sorting: Sorting; most: number },
) {
  const { title, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "p.id", from: "plan p", where: CONDITIONS, values: [tx.firmId, title ?? null] },
    by: ORDERS[sorting.column] ?? "p.id::text",
    ...{ id: "p.id", descending: sorting.descending, after: sorting.after, most },
  });
  const rows = await plansById(
    tx,
    found.map(({ id }) => id),
  );
  return inPlaces(rows, found);
}
