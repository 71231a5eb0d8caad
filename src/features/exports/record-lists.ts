import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { typedText } from "../../web/fields.ts";
import { REGISTER_FILTERS } from "../concessions/schemas.ts";
import { todayOfFirm } from "../firms/today.ts";
import { ReleaseQuery } from "../firmware/schemas.ts";
import { MailQuery } from "../mail/schemas.ts";
import { NonconformanceQuery } from "../nonconformances/schemas.ts";
import { STANDING_FILTERS, STOCK_STANDINGS, StockUnitQuery } from "../stock/schemas.ts";
import type { ExportList } from "./list.ts";
import { ofTable, PAGING, SORTED, sqlPages } from "./lists.ts";
import { CONCESSIONS, MAILS, NONCONFORMANCES, RELEASES, STOCK } from "./record-tables.ts";

const NonconformanceFilter = NonconformanceQuery.omit(PAGING).extend(SORTED);

export const nonconformances: ExportList<z.output<typeof NonconformanceFilter>> = {
  ...{ name: "nonconformances", operationId: "exportNonconformances" },
  summary: "Take the nonconformances away",
  query: NonconformanceFilter,
  columns: Object.keys(NONCONFORMANCES.columns),
  async *pages(ask, { overdue, effectOverdue, sort: _sort, ...filter }) {
    const { db, firmId, now } = ask;
    const today = await inFirm(db, firmId, (tx) => todayOfFirm(tx, now));
    yield* sqlPages(ask, NONCONFORMANCES, {
      ...filter,
      ...(overdue ? { dueBefore: today } : {}),
      ...(effectOverdue ? { effectBefore: today } : {}),
    });
  },
};

const ConcessionFilter = z.strictObject({ ...SORTED, ...REGISTER_FILTERS });

export const concessions: ExportList<z.output<typeof ConcessionFilter>> = {
  ...{ name: "concessions", operationId: "exportConcessions" },
  summary: "Take the concessions away, of all jobs or of one",
  query: ConcessionFilter,
  columns: Object.keys(CONCESSIONS.columns),
  pages: (ask, { state, sort: _sort, ...filter }) =>
    sqlPages(ask, CONCESSIONS, {
      ...filter,
      standing: state && [state, ask.now.toISOString()],
    }),
};

export const stock = ofTable(STOCK, {
  ...{ name: "stock", operationId: "exportStockUnits", summary: "Take the units in stock away" },
  query: StockUnitQuery.omit(PAGING)
    .extend({
      ...SORTED,
      standing: z.enum(STOCK_STANDINGS).optional().describe("as the page filters"),
    })
    .transform(({ standing, ...filter }) => ({
      ...filter,
      ...(standing ? STANDING_FILTERS[standing] : {}),
    })),
});

export const mails = ofTable(MAILS, {
  ...{ name: "mails", operationId: "exportMails", summary: "Take the outbox away, without texts" },
  query: MailQuery.omit(PAGING).extend({
    ...SORTED,
    recipient: typedText(254).optional().describe("part of the address"),
  }),
});

export const releases = ofTable(RELEASES, {
  ...{ name: "releases", operationId: "exportFirmwareReleases" },
  summary: "Take the firmware releases away",
  query: ReleaseQuery.omit(PAGING).extend(SORTED),
});
