// The bags of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, momentText, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { evidenceExportsById } from "./store.ts";

export const COLUMNS = ["what", "state", "made", "by"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  what: "fold_text(e.title)",
  state: "e.state",
  made: momentText("e.created_at"),
  by: "fold_text(p.name)",
};

const CONDITIONS = ["e.firm_id = $1::uuid", "($2::text IS NULL OR e.state = $2)"];

export async function sortedExports(
  tx: FirmTransaction,
  filter: { state?: string | undefined; sorting: Sorting; most: number },
) {
  const { state, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    select: "e.id",
    from: "evidence_export e JOIN person p ON p.firm_id = e.firm_id AND p.id = e.person_id",
    ...{ where: CONDITIONS, values: [tx.firmId, state ?? null] },
    by: ORDERS[sorting.column] ?? "e.id::text",
    ...{ id: "e.id", descending: sorting.descending, after: sorting.after, most },
  });
  const ids = found.map(({ id }) => id);
  return inPlaces(await evidenceExportsById(tx, ids), found);
}
