// The product models of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export const COLUMNS = ["code", "name", "maker", "kind"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  code: "m.code",
  name: "fold_text(m.name)",
  maker: "fold_text(m.maker)",
  kind: "m.kind",
};

const SELECT = `m.id, m.code, m.name, m.maker, m.kind, m.serial_mask AS "serialMask"`;
const CONDITIONS = [
  "m.firm_id = $1::uuid",
  "($2::text IS NULL OR strpos(lower(m.code), lower($2)) > 0)",
  "($3::text IS NULL OR m.kind = $3)",
];

export interface ListedModel {
  id: string;
  code: string;
  name: string;
  maker: string;
  kind: string;
  serialMask: string;
}

export async function sortedModels(
  tx: FirmTransaction,
  filter: {
    code?: string | undefined;
    kind?: string | undefined;
    sorting: Sorting;
    most: number;
  },
) {
  const { code, kind, sorting, most } = filter;
  return sortedRows<ListedModel>(tx, {
    ...{ select: SELECT, from: "product_model m", where: CONDITIONS },
    values: [tx.firmId, code ?? null, kind ?? null],
    by: ORDERS[sorting.column] ?? "m.id::text",
    ...{ id: "m.id", descending: sorting.descending, after: sorting.after, most },
  });
}
