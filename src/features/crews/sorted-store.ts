// The crews of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { crewsById } from "./store.ts";

export const COLUMNS = ["crew", "people"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  crew: "fold_text(c.name)",
  // So much of the names as a cursor holds; a crew of nobody stands before all others.
  people: `left(coalesce((SELECT string_agg(fold_text(p.name), ', ' ORDER BY p.name)
    FROM crew_member k JOIN person p ON p.firm_id = k.firm_id AND p.id = k.person_id
    WHERE k.firm_id = c.firm_id AND k.crew_id = c.id), ''), 300)`,
};

const CONDITIONS = [
  "c.firm_id = $1::uuid AND c.active = $2::boolean",
  "($3::text IS NULL OR strpos(fold_text(c.name), fold_text($3)) > 0)",
];

export async function sortedCrews(
  tx: FirmTransaction,
  filter: { active: boolean; name?: string | undefined; sorting: Sorting; most: number },
) {
  const { active, name, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "c.id", from: "crew c", where: CONDITIONS },
    values: [tx.firmId, active, name ?? null],
    by: ORDERS[sorting.column] ?? "c.id::text",
    ...{ id: "c.id", descending: sorting.descending, after: sorting.after, most },
  });
  const ids = found.map(({ id }) => id);
  return inPlaces(await crewsById(tx, ids), found);
}
