// The claims of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, momentText, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { claimsById } from "./claim-store.ts";

export const CLAIM_COLUMNS = ["reference", "serial", "state", "opened"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  reference: "c.reference",
  serial: "u.serial",
  state: "c.state",
  opened: momentText("c.created_at"),
};

const CONDITIONS = [
  "c.firm_id = $1::uuid",
  "($2::text IS NULL OR c.state = $2)",
  "($3::uuid IS NULL OR c.unit_id = $3 OR c.replacement_unit_id = $3)",
];

export async function sortedClaims(
  tx: FirmTransaction,
  filter: {
    state?: string | undefined;
    /** The unit that is claimed for, or that came in answer. */
    unitId?: string | undefined;
    sorting: Sorting;
    most: number;
  },
) {
  const { state, unitId, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    select: "c.id",
    from: "warranty_claim c JOIN unit u ON u.firm_id = c.firm_id AND u.id = c.unit_id",
    ...{ where: CONDITIONS, values: [tx.firmId, state ?? null, unitId ?? null] },
    by: ORDERS[sorting.column] ?? "c.id::text",
    ...{ id: "c.id", descending: sorting.descending, after: sorting.after, most },
  });
  const rows = await claimsById(
    tx,
    found.map(({ id }) => id),
  );
  return inPlaces(rows, found);
}
