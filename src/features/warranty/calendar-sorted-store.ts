// The days of the warranty calendar in the order of a column. A unit may have two, one of each
// kind, so the kind is part of a row's place; its parts are set off by what no text holds.
import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { DAY_CONDITION, DAY_FIELDS, DAYS, type WarrantyDay } from "./calendar-store.ts";

export const DAY_KINDS = ["register", "ends"] as const;
export const DAY_COLUMNS = ["day", "kind", "serial", "site"] as const;
const inTurn = (...parts: string[]): string => parts.join(" || chr(31) || ");
const ORDERS: Readonly<Record<string, string>> = {
  day: inTurn("d.day::text", "d.kind", "d.serial"),
  kind: inTurn("d.kind", "d.day::text", "d.serial"),
  serial: inTurn("d.serial", "d.kind"),
  site: inTurn("coalesce(d.site_reference, '')", "d.day::text", "d.kind"),
};

export interface DayFilter {
  from: string;
  to: string;
  kind?: (typeof DAY_KINDS)[number] | undefined;
}

export async function sortedDays(
  tx: FirmTransaction,
  { from, to, kind }: DayFilter,
  { sorting, most, now }: { sorting: Sorting; most: number; now: Date },
) {
  return sortedRows<WarrantyDay & { id: string }>(tx, {
    ...{ select: `d.id, ${DAY_FIELDS}`, from: DAYS },
    where: [DAY_CONDITION, "($7::text IS NULL OR d.kind = $7)"],
    values: [tx.firmId, null, null, now, from, to, kind ?? null],
    by: ORDERS[sorting.column] ?? inTurn("d.id::text", "d.kind"),
    ...{ id: "d.id", descending: sorting.descending, after: sorting.after, most },
  });
}
