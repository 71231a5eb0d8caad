// The mails of the outbox's page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { inPlaces, momentText, sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { type MailState, mailsById } from "./outbox-store.ts";
import type { MailKind } from "./store.ts";

export const MAIL_COLUMNS = ["subject", "state", "kind", "recipient", "written"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  subject: "fold_text(l.subject)",
  state: "l.state",
  kind: "l.kind",
  recipient: "lower(l.recipient)",
  written: momentText("l.created_at"),
};

const CONDITIONS = [
  "l.firm_id = $1::uuid",
  "($2::text IS NULL OR l.state = $2)",
  "($3::text IS NULL OR l.kind = $3)",
  "($4::text IS NULL OR strpos(lower(l.recipient), lower($4)) > 0)",
];

export interface SortedMailFilter {
  state?: MailState | undefined;
  kind?: MailKind | undefined;
  /** Part of the address. */
  recipient?: string | undefined;
}

export async function sortedMails(
  tx: FirmTransaction,
  { state, kind, recipient }: SortedMailFilter,
  { sorting, most }: { sorting: Sorting; most: number },
) {
  const found = await sortedRows<{ id: string }>(tx, {
    ...{ select: "l.id", from: "mail l", where: CONDITIONS },
    values: [tx.firmId, state ?? null, kind ?? null, recipient ?? null],
    by: ORDERS[sorting.column] ?? "l.id::text",
    ...{ id: "l.id", descending: sorting.descending, after: sorting.after, most },
  });
  const rows = await mailsById(
    tx,
    found.map(({ id }) => id),
  );
  return inPlaces(rows, found);
}
