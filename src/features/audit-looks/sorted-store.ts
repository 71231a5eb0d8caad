// The looks of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, momentText, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { readLooks } from "./read-looks.ts";

export const COLUMNS = ["what", "person", "when"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  // So much of an address as a cursor holds.
  what: "left(l.path, 300)",
  person: "fold_text(p.name)",
  when: momentText("l.at"),
};

const CONDITIONS = [
  "l.firm_id = $1::uuid",
  "($2::uuid IS NULL OR l.person_id = $2)",
  "($3::date IS NULL OR l.day = $3)",
];

export async function sortedLooks(
  tx: FirmTransaction,
  filter: {
    personId?: string | undefined;
    day?: string | undefined;
    sorting: Sorting;
    most: number;
  },
) {
  const { personId, day, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    select: "l.id",
    from: "audit_look l JOIN person p ON p.firm_id = l.firm_id AND p.id = l.person_id",
    ...{ where: CONDITIONS, values: [tx.firmId, personId ?? null, day ?? null] },
    by: ORDERS[sorting.column] ?? "l.id::text",
    ...{ id: "l.id", descending: sorting.descending, after: sorting.after, most },
  });
  const ids = found.map(({ id }) => id);
  return inPlaces(await readLooks(tx, { ids, most }), found);
}
