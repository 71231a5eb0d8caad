import { z } from "zod";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { dueCounts, dueSites, type SiteDue, type UnitDue } from "./due-list.ts";
import { DueCountQuery } from "./schemas.ts";

const SITES_A_PAGE = 40;
const PageQuery = z.object({
  cursor: z.string().max(200).optional(),
  severity: DueCountQuery.shape.severity,
  overdue: DueCountQuery.shape.overdue,
});

export const firmwarePages: Feature = async (app, { db, now }) => {
  app.get("/firmware", {
    schema: { operationId: "firmwareDuePage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { cursor, ...filter } = request.query;
      const asked = { firmId: signedIn(request).firmId, filter, now: now() };
      const counts = await dueCounts(db, asked);
      const found = await dueSites(db, asked, { after: afterId(cursor), most: SITES_A_PAGE + 1 });
      const sites = found.slice(0, SITES_A_PAGE);
      const last = found.length > SITES_A_PAGE ? sites.at(-1) : undefined;
      return sendPage(request, reply, "firmware", {
        title: "Firmware due",
        counts,
        sites: sites.map(shownSite),
        severity: filter.severity,
        overdue: filter.overdue,
        next: last && nextLink(last.id, request.query),
      });
    },
  });
};

function nextLink(siteId: string, { severity, overdue }: z.infer<typeof PageQuery>): string {
  const query = new URLSearchParams({ cursor: Buffer.from(siteId).toString("base64url") });
  if (severity) query.set("severity", severity);
  if (overdue !== undefined) query.set("overdue", String(overdue));
  return `/firmware?${query}`;
}

function shownSite(site: SiteDue) {
  return {
    ...site,
    units: [...site.units.map(shownUnit), ...site.unclear.map(shownUnclear)],
    nextVisit: site.nextVisit && localMoment(site.nextVisit.startsAt, site.timeZone),
  };
}

function shownUnit(unit: UnitDue) {
  const days = Math.abs(unit.daysLeft) === 1 ? "1 day" : `${Math.abs(unit.daysLeft)} days`;
  const when = unit.daysLeft < 0 ? `${days} over` : unit.daysLeft === 0 ? "today" : `${days} left`;
  const [tag, mark] = unit.daysLeft < 0 ? ["bad", "✕"] : ["warn", "▲"];
  return { ...unit, when, tag, mark };
}

function shownUnclear(unit: UnitDue) {
  const when = unit.state === "unknown-level" ? "read the level" : "compare by hand";
  return { ...unit, when, tag: "warn", mark: "?" };
}

const localMoment = (time: string, timeZone: string): string =>
  new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short", timeZone }).format(
    new Date(time),
  );
