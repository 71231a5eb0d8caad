import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { todayOfFirm } from "../firms/today.ts";
import { DAY_FILTERS, periodOf } from "../warranty/calendar.ts";
import { sortedDays } from "../warranty/calendar-sorted-store.ts";
import { A_PAGE, type ExportList } from "./list.ts";
import { SORTED } from "./lists.ts";

const Query = z.strictObject({ ...SORTED, ...DAY_FILTERS });

export const warrantyDays: ExportList<z.output<typeof Query>> = {
  ...{ name: "warranty-days", operationId: "exportWarrantyDays", query: Query },
  summary: "Take away by day what warranties end and what is to be registered, this year's unasked",
  columns: ["day", "what", "serial", "model", "site"],
  async *pages({ db, firmId, now }, { kind, ...asked }) {
    const today = await inFirm(db, firmId, (tx) => todayOfFirm(tx, now));
    const { from, to } = periodOf(asked, today);
    for (let after: Sorting["after"]; ; ) {
      const asks = { sorting: { column: "day", descending: false, after }, most: A_PAGE, now };
      const rows = await inFirm(db, firmId, (tx) => sortedDays(tx, { from, to, kind }, asks));
      if (rows.length > 0) {
        yield rows.map((row) => [
          ...[row.day, row.kind, row.serial, row.modelCode, row.siteReference],
        ]);
      }
      const last = rows.at(-1);
      after = last && { text: last.place, id: last.id };
      if (rows.length < A_PAGE) return;
    }
  },
};
