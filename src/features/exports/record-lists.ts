import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { todayOfFirm } from "../firms/today.ts";
import { ReleaseQuery } from "../firmware/schemas.ts";
import { MailQuery } from "../mail/schemas.ts";
import { NonconformanceQuery } from "../nonconformances/schemas.ts";
import { STANDING_FILTERS, STOCK_STANDINGS, StockUnitQuery } from "../stock/schemas.ts";
import type { ExportList } from "./list.ts";
import { ofTable, PAGING, sqlPages } from "./lists.ts";
import { MAILS, NONCONFORMANCES, RELEASES, STOCK } from "./record-tables.ts";

const NonconformanceFilter = NonconformanceQuery.omit(PAGING);

export const nonconformances: ExportList<z.output<typeof NonconformanceFilter>> = {
  ...{ name: "nonconformances", operationId: "exportNonconformances" },
  summary: "Take the nonconformances away",
  query: NonconformanceFilter,
  columns: Object.keys(NONCONFORMANCES.columns),
  async *pages(ask, { overdue, ...filter }) {
    const { db, firmId, now } = ask;
    const today = await inFirm(db, firmId, (tx) => todayOfFirm(tx, now));
    yield* sqlPages(ask, NONCONFORMANCES, { ...filter, ...(overdue ? { dueBefore: today } : {}) });
  },
};

export const stock = ofTable(STOCK, {
  ...{ name: "stock", operationId: "exportStockUnits", summary: "Take the units in stock away" },
  query: StockUnitQuery.omit(PAGING)
    .extend({ standing: z.enum(STOCK_STANDINGS).optional().describe("as the page filters") })
    .transform(({ standing, ...filter }) => ({
      ...filter,
      ...(standing ? STANDING_FILTERS[standing] : {}),
    })),
});

export const mails = ofTable(MAILS, {
  ...{ name: "mails", operationId: "exportMails", summary: "Take the outbox away, without texts" },
  query: MailQuery.omit(PAGING),
});

export const releases = ofTable(RELEASES, {
  ...{ name: "releases", operationId: "exportFirmwareReleases" },
  summary: "Take the firmware releases away",
  query: ReleaseQuery.omit(PAGING),
});
