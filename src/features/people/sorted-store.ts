// The people of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export const COLUMNS = ["name", "email"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  name: "fold_text(p.name)",
  email: "lower(p.email::text)",
};

const CONDITIONS = [
  "p.firm_id = $1::uuid AND p.active",
  "($2::text IS NULL OR strpos(fold_text(p.name), fold_text($2)) > 0)",
  "($3::text IS NULL OR $3 = ANY (p.roles))",
];

export async function sortedPeople(
  tx: FirmTransaction,
  filter: { name?: string | undefined; role?: string | undefined; sorting: Sorting; most: number },
) {
  const { name, role, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "p.id", from: "person p", where: CONDITIONS },
    values: [tx.firmId, name ?? null, role ?? null],
    by: ORDERS[sorting.column] ?? "p.id::text",
    ...{ id: "p.id", descending: sorting.descending, after: sorting.after, most },
  });
  const ids = found.map(({ id }) => id);
  const rows = await tx.person.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    take: most,
  });
  return inPlaces(rows, found);
}
