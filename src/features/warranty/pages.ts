import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { daysBetween } from "../../domain/dates/plain-date.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { plainDate } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { todayOfFirm } from "../firms/today.ts";
import { listProductModels } from "../product-models/store.ts";
import { findSite } from "../sites/store.ts";
import { judgeUnits } from "./judge.ts";
import { STANDINGS, type UnitWarranty, type WarrantyCounts } from "./schemas.ts";
import { standingIds, WARRANTY_COLUMNS } from "./standing-store.ts";
import { countedStandings } from "./standings.ts";
import { warrantyLine } from "./warranty-view.ts";

const MODELS_MOST = 200;
const PATH = "/warranty";
const PageQuery = z.object({
  ...sortedQuery(WARRANTY_COLUMNS),
  state: asked(z.enum(STANDINGS)),
  modelId: asked(z.guid()),
  siteId: asked(z.guid()),
  registration: asked(z.literal("open")),
  registerBefore: asked(plainDate()),
});

export const warrantyPages: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: { operationId: "warrantyPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { query, language } = request;
      const { sort: _sort, cursor: _cursor, ...filter } = query;
      const sorting = sortingOf(query, "serial");
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const found = await standingIds(tx, { ...filter, sorting, most: A_PAGE + 1 }, now());
        const { rows, list } = sortedPage(found, {
          ...{ path: PATH, columns: WARRANTY_COLUMNS, usual: "serial", query },
          exportPath: "/api/v1/exports/warranty.csv",
        });
        const ids = rows.map(({ id }) => id);
        const judged = await judgeUnits(tx, { ids, most: A_PAGE }, now());
        const byId = new Map(judged.map((row) => [row.unitId, row]));
        return {
          list,
          rows: ids.flatMap((id) => byId.get(id) ?? []),
          counts: await countedStandings(tx, filter, now()),
          models: await listProductModels(tx, { most: MODELS_MOST }),
          site: filter.siteId ? await findSite(tx, filter.siteId) : undefined,
          today: await todayOfFirm(tx, now()),
        };
      });
      return sendPage(request, reply, "warranty", {
        title: say(language, "warranty.title"),
        ...{ list: page.list, filter, site: page.site, styles: ["registry"] },
        rows: page.rows.map((row) => listed(row, page.today, language)),
        counts: countLinks(page.counts, filter, language),
        models: page.models.map(({ id, code }) => ({ id, code, chosen: id === filter.modelId })),
        states: STANDINGS.map((name) => ({
          ...{ name, chosen: name === filter.state },
          text: say(language, `warranty.state.${name}`),
        })),
        filtered: Object.values(filter).some((value) => value !== undefined),
      });
    },
  });
};

/** A line with the days left to register, or over. */
function listed(row: UnitWarranty, today: string, language: ShownLanguage) {
  const line = warrantyLine(row, language);
  if (line.registerBy === null || row.registerBy === null) return line;
  const left = daysBetween(today, row.registerBy);
  const key = left < 0 ? "warranty.daysOver" : "warranty.daysLeft";
  return { ...line, late: left < 0, left: say(language, key, { days: Math.abs(left) }) };
}

/** Each count leads to the units that it counts. */
function countLinks(
  { units, unregistered }: WarrantyCounts,
  filter: { modelId?: string | undefined; siteId?: string | undefined; state?: string | undefined },
  language: ShownLanguage,
) {
  const link = (more: Record<string, string>) => {
    const query = new URLSearchParams(more);
    for (const name of ["modelId", "siteId"] as const) {
      if (filter[name]) query.set(name, filter[name]);
    }
    return `${PATH}?${query}`;
  };
  return [
    ...STANDINGS.map((state) => ({
      ...{ name: say(language, `warranty.state.${state}`), units: units[state] },
      ...{ href: link({ state }), current: filter.state === state },
    })),
    {
      ...{ name: say(language, "warranty.toRegister"), units: unregistered },
      href: link({ registration: "open", sort: "registerBy" }),
    },
  ];
}
