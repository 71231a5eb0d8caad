// A person's own notices as their page shows them: filtered, in the order of a column, a page at a
// time.
import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";

export const NOTICE_KINDS = ["firmware-due", "warranty-due"] as const;
export type NoticeKind = (typeof NOTICE_KINDS)[number];

export const NOTICE_COLUMNS = ["day", "kind", "subject"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  day: "n.day::text",
  kind: "n.kind",
  subject: "fold_text(n.subject)",
};

const SELECT = `n.id, n.kind, n.day::text AS day, n.subject, n.body,
  n.seen_at IS NULL AS "isNew"`;
const CONDITIONS = [
  "n.firm_id = $1::uuid AND n.person_id = $2::uuid",
  "($3::text IS NULL OR n.kind = $3)",
];

export interface OwnNotice {
  id: string;
  kind: NoticeKind;
  day: string;
  subject: string;
  body: string;
  isNew: boolean;
}

export async function sortedNotices(
  tx: FirmTransaction,
  personId: string,
  filter: { kind?: NoticeKind | undefined; sorting: Sorting; most: number },
) {
  const { kind, sorting, most } = filter;
  return sortedRows<OwnNotice>(tx, {
    ...{ select: SELECT, from: "notice n", where: CONDITIONS },
    values: [tx.firmId, personId, kind ?? null],
    by: ORDERS[sorting.column] ?? "n.id::text",
    ...{ id: "n.id", descending: sorting.descending, after: sorting.after, most },
  });
}
