// The imports of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, momentText, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { importsById } from "./store.ts";

export const COLUMNS = ["file", "kind", "state", "rows", "begun"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  file: "fold_text(i.file_name)",
  kind: "i.kind",
  state: "i.state",
  rows: "lpad(coalesce(i.figures->>'rows', ''), 9, '0')",
  begun: momentText("i.created_at"),
};

const CONDITIONS = [
  "i.firm_id = $1::uuid",
  "($2::text IS NULL OR i.kind = $2)",
  "($3::text IS NULL OR i.state = $3)",
];

export async function sortedImports(
  tx: FirmTransaction,
  filter: {
    kind?: string | undefined;
    state?: string | undefined;
    sorting: Sorting;
    most: number;
  },
) {
  const { kind, state, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "i.id", from: "csv_import i", where: CONDITIONS },
    values: [tx.firmId, kind ?? null, state ?? null],
    by: ORDERS[sorting.column] ?? "i.id::text",
    ...{ id: "i.id", descending: sorting.descending, after: sorting.after, most },
  });
  const ids = found.map(({ id }) => id);
  return inPlaces(await importsById(tx, ids), found);
}
