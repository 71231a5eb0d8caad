import type { z } from "zod";
import type { Database } from "../../db/client.ts";
import { pipelineQuery, type Query } from "../../db/query.ts";
import { inFirmPipelined } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import type { DueCounts, DueFilter, DueSite } from "./due-schemas.ts";
import { listDueSorted } from "./due-sorted-store.ts";
import { countDue, type DueQuestion, type DueRow, firmTimeZone, listDue } from "./due-store.ts";

export type SiteDue = Omit<z.infer<typeof DueSite>, "blockedBy">;
export type UnitDue = SiteDue["units"][number];

export interface DueRequest {
  firmId: string;
  filter: DueFilter;
  now: Date;
}

export interface DuePage {
  /** Last site of the page before. */
  after: string | undefined;
  most: number;
}

/** A page of sites in the order of their ids. */
export async function dueSites(
  db: Database,
  request: DueRequest,
  page: DuePage,
): Promise<SiteDue[]> {
  return inFirmPipelined(db, request.firmId, async (pipeline) => {
    const query = pipelineQuery(pipeline);
    return gather(query, await questionOf(query, request), page);
  });
}

/** A page of sites in the order of a column, each with its place in it. */
export async function dueSitesSorted(
  db: Database,
  request: DueRequest,
  page: { sorting: Sorting; most: number },
): Promise<(SiteDue & { place: string })[]> {
  return inFirmPipelined(db, request.firmId, async (pipeline) => {
    const query = pipelineQuery(pipeline);
    const question = await questionOf(query, request);
    const rows = await listDueSorted(query, question, page);
    const places = new Map(rows.map(({ siteId, place }) => [siteId, place]));
    return sitesOf(rows, question.today).map((site) => ({
      ...site,
      place: places.get(site.id) ?? "",
    }));
  });
}

export async function dueCounts(
  db: Database,
  request: DueRequest,
): Promise<z.infer<typeof DueCounts>> {
  return inFirmPipelined(db, request.firmId, async (pipeline) => {
    const query = pipelineQuery(pipeline);
    const { safety, important, routine, ...counts } = await countDue(
      query,
      await questionOf(query, request),
    );
    return { ...counts, bySeverity: { safety, important, routine } };
  });
}

// No firm comes near it; a limit on everything.
const SITES_MOST = 1_000_000;

/** The whole list on a day of the firm's calendar, in the caller's transaction. */
export async function dueListOn(
  query: Query,
  { firmId, today, now }: Omit<DueQuestion, "filter">,
): Promise<SiteDue[]> {
  const question = { firmId, filter: {}, today, now };
  return gather(query, question, { after: undefined, most: SITES_MOST });
}

async function questionOf(query: Query, request: DueRequest): Promise<DueQuestion> {
  const timeZone = await firmTimeZone(query, request.firmId);
  return { ...request, today: localDay(request.now.toISOString(), timeZone) };
}

async function gather(query: Query, question: DueQuestion, page: DuePage): Promise<SiteDue[]> {
  return sitesOf(await listDue(query, question, page), question.today);
}

function sitesOf(rows: readonly DueRow[], today: string): SiteDue[] {
  const sites = new Map<string, SiteDue>();
  for (const row of rows) {
    const site = sites.get(row.siteId) ?? siteOf(row);
    const unit = dueUnit(row, today);
    if (isUnclear(unit)) site.unclear.push(unit);
    else site.units.push(unit);
    sites.set(site.id, site);
  }
  return [...sites.values()];
}

function siteOf({ siteId: id, nextVisit, ...row }: DueRow): SiteDue {
  const { reference, addressLine, locality, region, timeZone } = row;
  const visit = nextVisit && { ...nextVisit, startsAt: new Date(nextVisit.startsAt).toISOString() };
  const place = { id, reference, addressLine, locality, region, timeZone };
  return { ...place, nextVisit: visit, units: [], unclear: [] };
}

function dueUnit(row: DueRow, today: string): UnitDue {
  const { unitId: id, serial, modelCode, from, to, severity, dueOn, isHeld } = row;
  const daysLeft = Math.round((Date.parse(dueOn) - Date.parse(today)) / 86_400_000);
  const state = stateOf(row, daysLeft);
  return { id, serial, modelCode, state, from, to, severity, dueOn, daysLeft, isHeld };
}

function stateOf(row: DueRow, daysLeft: number): UnitDue["state"] {
  if (row.from === null) return "unknown-level";
  if (!row.hasKey) return "not-orderable";
  return daysLeft < 0 ? "overdue" : "due";
}

const isUnclear = ({ state }: UnitDue): boolean =>
  state === "unknown-level" || state === "not-orderable";
