import { z } from "zod";
import type { Database } from "../../db/client.ts";
import { forReading, inFirm } from "../../db/scope.ts";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { listProductModels } from "../product-models/store.ts";
import {
  type DueRequest,
  dueCounts,
  dueSites,
  dueSitesSorted,
  type SiteDue,
  type UnitDue,
} from "./due-list.ts";
import { DueCountQuery } from "./due-schemas.ts";
import { DUE_COLUMNS } from "./due-sorted-store.ts";
import { whatBlocks } from "./what-blocks.ts";

const PATH = "/firmware";
const MODELS_MOST = 200;
/** A form that is sent posts its empty fields too. */
const none = z.literal("").transform(() => undefined);
const { severity, modelId, region, dueBefore, dueFrom, overdue } = DueCountQuery.shape;
const PageQuery = z.object({
  ...sortedQuery(DUE_COLUMNS),
  severity: z.union([none, severity]),
  modelId: z.union([none, modelId]),
  region: z.union([none, region]),
  dueBefore: z.union([none, dueBefore]),
  dueFrom: z.union([none, dueFrom]),
  overdue: z.union([none, overdue]),
});

export const firmwarePages: Feature = async (app, { db, now }) => {
  app.get("/firmware", {
    schema: { operationId: "firmwareDuePage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { language } = request;
      const { sort, cursor, ...filter } = request.query;
      const { firmId } = signedIn(request);
      const asked = { firmId, filter, now: now() };
      const counts = await dueCounts(forReading(db), asked);
      const models = await inFirm(db, firmId, (tx) => listProductModels(tx, { most: MODELS_MOST }));
      const filters = {
        ...filter,
        overdue: filter.overdue === undefined ? "" : `${filter.overdue}`,
      };
      const { sites, list } = await pageOf(db, asked, { sort, cursor, filters });
      const blocks = await whatBlocks(db, firmId, sites);
      return sendPage(request, reply, "firmware", {
        title: say(language, "due.title"),
        counts,
        filter: filters,
        sites: sites.map((site) => ({
          ...shownSite(site, language),
          blocks: blocks.get(site.id),
        })),
        severities: FIRMWARE_SEVERITIES.map((value) => ({
          value,
          text: say(language, `fleet.severity.${value}`),
          chosen: value === filter.severity,
        })),
        models: models.map(({ id, code }) => ({ id, code, chosen: id === filter.modelId })),
        list,
      });
    },
  });
};

interface Place {
  sort?: string | undefined;
  cursor?: string | undefined;
  filters: Readonly<Record<string, string | undefined>>;
}

/** In the order of a column where one is asked for, else in that of ids, which is the quickest. */
async function pageOf(db: Database, asked: DueRequest, { sort, cursor, filters }: Place) {
  const most = A_PAGE + 1;
  const common = { path: PATH, columns: DUE_COLUMNS, exportPath: "/api/v1/exports/due.csv" };
  if (sort !== undefined) {
    const sorting = sortingOf({ sort, cursor }, sort);
    const found = await dueSitesSorted(forReading(db), asked, { sorting, most });
    const query = { ...filters, sort, cursor };
    const { rows, list } = sortedPage(found, { ...common, usual: sort, query });
    return { sites: rows, list };
  }
  const found = await dueSites(forReading(db), asked, { after: afterId(cursor), most });
  const sites = found.slice(0, A_PAGE);
  const last = found.length > A_PAGE ? sites.at(-1) : undefined;
  const next = last ? Buffer.from(last.id).toString("base64url") : null;
  return { sites, list: listView({ ...common, filters, cursor, next }) };
}

function shownSite(site: SiteDue, language: ShownLanguage) {
  return {
    ...site,
    units: [
      ...site.units.map((unit) => shownUnit(unit, language)),
      ...site.unclear.map((unit) => shownUnclear(unit, language)),
    ],
    nextVisit:
      site.nextVisit && dayAndTime(language, new Date(site.nextVisit.startsAt), site.timeZone),
    jobId: site.nextVisit?.jobId,
  };
}

function shownUnit(unit: UnitDue, language: ShownLanguage) {
  const days = Math.abs(unit.daysLeft);
  const late = unit.daysLeft < 0;
  const when = late
    ? say(language, "due.daysOver", { days })
    : unit.daysLeft === 0
      ? say(language, "due.today")
      : say(language, "due.daysLeft", { days });
  const [tag, mark] = late ? ["bad", "✕"] : ["warn", "▲"];
  return { ...texts(unit, language), when, tag, mark };
}

function shownUnclear(unit: UnitDue, language: ShownLanguage) {
  const key = unit.state === "unknown-level" ? "due.readLevel" : "due.compare";
  return { ...texts(unit, language), when: say(language, key), tag: "warn", mark: "?" };
}

const texts = (unit: UnitDue, language: ShownLanguage) => ({
  ...unit,
  severity: say(language, `fleet.severity.${unit.severity}`),
  dueOn: plainDay(language, unit.dueOn),
});
