import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export const INSTRUMENT_COLUMNS = ["reference", "name", "instrumentClass", "dueOn"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  reference: "i.reference",
  name: "fold_text(i.name)",
  instrumentClass: "i.instrument_class",
  // Whatever has no calibration that counts comes first: it is out now.
  dueOn: "coalesce(CASE WHEN last.passed THEN last.due_on::text END, '')",
};

export interface InstrumentPageFilter {
  text?: string | undefined;
  instrumentClass?: string | undefined;
  dueBefore?: string | undefined;
  retired: boolean;
  sorting: Sorting;
  most: number;
}

/** Ids in the order asked for; how each stands is for the rules to say. */
export async function sortedIds(tx: FirmTransaction, filter: InstrumentPageFilter) {
  const { text, instrumentClass, dueBefore, retired, sorting, most } = filter;
  return sortedRows<{ id: string }>(tx, {
    select: "i.id",
    from: `instrument i LEFT JOIN LATERAL (
      SELECT c.due_on, c.passed FROM calibration c
      WHERE c.firm_id = i.firm_id AND c.instrument_id = i.id
      ORDER BY c.calibrated_on DESC, c.created_at DESC, c.id DESC LIMIT 1) last ON true`,
    where: [
      "i.firm_id = $1::uuid",
      `i.retired_on IS ${retired ? "NOT NULL" : "NULL"}`,
      `($2::text IS NULL OR strpos(fold_text(concat_ws(' ', i.name, i.reference, i.serial)),
        fold_text($2)) > 0)`,
      "($3::text IS NULL OR i.instrument_class = $3)",
      "($4::date IS NULL OR last.passed IS NOT TRUE OR last.due_on < $4::date)",
    ],
    values: [tx.firmId, ...[text, instrumentClass, dueBefore].map((value) => value ?? null)],
    by: ORDERS[sorting.column] ?? "i.reference",
    id: "i.id",
    descending: sorting.descending,
    after: sorting.after,
    most,
  });
}
