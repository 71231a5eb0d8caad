// The keys of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, momentText, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { keysById } from "./store.ts";

/** How a key stands, at a moment that is written into the query. */
export const standingAt = (moment: string): string =>
  `CASE WHEN k.revoked_at IS NOT NULL THEN 'revoked'
    WHEN k.expires_at < ${moment}::timestamptz THEN 'over' ELSE 'inUse' END`;

export const COLUMNS = ["name", "made", "used", "standing"] as const;
const STANDING = standingAt("$2");
/** A key that was never used was longest not used. */
const ORDERS: Readonly<Record<string, string>> = {
  name: "fold_text(k.name)",
  made: momentText("k.created_at"),
  used: `coalesce(${momentText("k.last_used_at")}, '')`,
  standing: STANDING,
};

const CONDITIONS = ["k.firm_id = $1::uuid", `($3::text IS NULL OR ${STANDING} = $3)`];

export async function sortedKeys(
  tx: FirmTransaction,
  filter: { standing?: string | undefined; now: Date; sorting: Sorting; most: number },
) {
  const { standing, now, sorting, most } = filter;
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "k.id", from: "api_key k", where: CONDITIONS },
    values: [tx.firmId, now.toISOString(), standing ?? null],
    by: ORDERS[sorting.column] ?? "k.id::text",
    ...{ id: "k.id", descending: sorting.descending, after: sorting.after, most },
  });
  const ids = found.map(({ id }) => id);
  return inPlaces(await keysById(tx, ids), found);
}
