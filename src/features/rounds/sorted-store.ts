// The proposals of the page: filtered, in the order of a column, a page at a time. Of a proposal
// its sentence alone is read, not the rounds and their drawing.
import type { FirmTransaction } from "../../db/scope.ts";
import { momentText, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import type { RoundState } from "./schemas.ts";

export const COLUMNS = ["proposal", "state", "made"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  proposal: "r.reference",
  state: "r.state",
  made: momentText("r.created_at"),
};

const SELECT = `r.id, r.reference, r.state, r.proposal->>'sentence' AS sentence,
  r.created_at AS "createdAt"`;
const CONDITIONS = ["r.firm_id = $1::uuid", "($2::text IS NULL OR r.state = $2)"];

export interface ListedRound {
  id: string;
  reference: string;
  state: RoundState;
  sentence: string;
  createdAt: Date;
}

export async function sortedRounds(
  tx: FirmTransaction,
  filter: { state?: string | undefined; sorting: Sorting; most: number },
) {
  const { state, sorting, most } = filter;
  return sortedRows<ListedRound>(tx, {
    ...{ select: SELECT, from: "update_round r", where: CONDITIONS },
    values: [tx.firmId, state ?? null],
    by: ORDERS[sorting.column] ?? "r.id::text",
    ...{ id: "r.id", descending: sorting.descending, after: sorting.after, most },
  });
}
