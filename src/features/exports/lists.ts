// The lists that can be taken away, each with the filters that the list itself has; where a page
// has filters of its own, those too, since its link leads here.
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { normaliseSerial } from "../../domain/identifiers/check-serial.ts";
import { typedText } from "../../web/fields.ts";
import { CustomerQuery } from "../customers/schemas.ts";
import { DayQuery } from "../notices/schemas.ts";
import { NOTICE_KINDS } from "../notices/sorted-store.ts";
import { PersonQuery } from "../people/schemas.ts";
import { SiteQuery } from "../sites/schemas.ts";
import { SnagQuery } from "../snags/schemas.ts";
import { UnitQuery } from "../units/schemas.ts";
import { A_PAGE, type ExportAsk, type ExportList } from "./list.ts";
import {
  CUSTOMERS,
  NOTICES,
  PEOPLE,
  readSqlPage,
  SITES,
  SNAGS,
  type SqlList,
  UNITS,
} from "./list-store.ts";

/** What pages add to the addresses of their lists. */
export const SORTED = {
  sort: z
    .string()
    .max(40)
    .optional()
    .describe("taken so that a list's own address works; exports are in the order of entry"),
};
export const PAGING = { limit: true, cursor: true } as const;

/** The rows of a list in the order of their ids. */
export async function* sqlPages(
  { db, firmId }: ExportAsk,
  list: SqlList,
  filter: Readonly<Record<string, unknown>>,
  ids?: readonly string[],
) {
  for (let after: string | undefined; ; ) {
    const page = { filter, after, ids, most: A_PAGE };
    const rows = await inFirm(db, firmId, (tx) => readSqlPage(tx, list, page));
    if (rows.length > 0) yield rows.map(({ cells }) => cells);
    after = rows.at(-1)?.id;
    if (rows.length < A_PAGE) return;
  }
}

export const ofTable = <Filter extends object>(
  sql: SqlList,
  list: Omit<ExportList<Filter>, "columns" | "pages">,
): ExportList<Filter> => ({
  ...list,
  columns: Object.keys(sql.columns),
  pages: (ask, filter) => sqlPages(ask, sql, Object.fromEntries(Object.entries(filter))),
});

export const customers = ofTable(CUSTOMERS, {
  ...{ name: "customers", operationId: "exportCustomers", summary: "Take the customers away" },
  query: CustomerQuery.omit(PAGING).extend(SORTED),
});

export const sites = ofTable(SITES, {
  ...{ name: "sites", operationId: "exportSites", summary: "Take the sites away" },
  query: SiteQuery.omit(PAGING).extend({
    ...SORTED,
    place: typedText(120).optional().describe("part of name, street, locality or postcode"),
  }),
});

export const units = ofTable(UNITS, {
  ...{ name: "units", operationId: "exportUnits", summary: "Take the units away" },
  query: UnitQuery.omit(PAGING)
    .extend(SORTED)
    .transform(({ serial, ...filter }) => ({
      ...filter,
      ...(serial === undefined ? {} : { serial: normaliseSerial(serial) }),
    })),
});

export const snags = ofTable(SNAGS, {
  ...{ name: "snags", operationId: "exportSnags", summary: "Take the snags away" },
  query: SnagQuery.omit(PAGING),
});

export const people = ofTable(PEOPLE, {
  ...{ name: "people", operationId: "exportPeople", summary: "Take the list of people away" },
  query: PersonQuery.omit(PAGING).extend(SORTED),
});

export const notices = ofTable(NOTICES, {
  ...{ name: "notices", operationId: "exportNotices" },
  summary: "Take away who was given which notice",
  query: DayQuery.omit(PAGING).extend({
    ...SORTED,
    kind: z.enum(NOTICE_KINDS).optional(),
    personId: z.guid().optional().describe("of this person alone"),
  }),
});
