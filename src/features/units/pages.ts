import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { typedText } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { listProductModels } from "../product-models/store.ts";
import { findSite } from "../sites/store.ts";
import { listForPage, UNIT_COLUMNS } from "./page-store.ts";
import { UNIT_STATES } from "./schemas.ts";

const MODELS_MOST = 200;
const PageQuery = z.object({
  ...sortedQuery(UNIT_COLUMNS),
  serial: asked(typedText(64)),
  modelId: asked(z.guid()),
  siteId: asked(z.guid()),
  state: asked(z.enum(UNIT_STATES)),
  firmwareLevel: asked(typedText(128)),
});

export const unitPages: Feature = async (app, { db }) => {
  app.get("/units", {
    schema: { operationId: "unitsPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { query, language } = request;
      const { sort: _sort, cursor: _cursor, ...filter } = query;
      const sorting = sortingOf(query, "serial");
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => ({
        found: await listForPage(tx, { ...filter, sorting, most: A_PAGE + 1 }),
        models: await listProductModels(tx, { most: MODELS_MOST }),
        site: filter.siteId ? await findSite(tx, filter.siteId) : undefined,
      }));
      const { rows, list } = sortedPage(page.found, {
        ...{
          path: "/units",
          columns: UNIT_COLUMNS,
          usual: "serial",
          query,
          exportPath: "/api/v1/exports/units.csv",
        },
      });
      const stateWord = (state: string) =>
        say(language, `registry.unit.${state as (typeof UNIT_STATES)[number]}`);
      return sendPage(request, reply, "units", {
        title: say(language, "registry.units"),
        ...{ list, filter, site: page.site, styles: ["registry"] },
        rows: rows.map((row) => ({ ...row, stateWord: stateWord(row.state) })),
        models: page.models.map(({ id, code }) => ({ id, code, chosen: id === filter.modelId })),
        states: UNIT_STATES.map((name) => ({
          ...{ name, text: stateWord(name), chosen: name === filter.state },
        })),
        filtered: Object.values(filter).some((value) => value !== undefined),
        mayAdd: signedIn(request).roles.some((role) => MAY_ADD.includes(role)),
      });
    },
  });
};

const MAY_ADD: readonly string[] = ["owner", "office", "installer"];
