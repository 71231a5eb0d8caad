import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import type { Role } from "../../web/roles.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { listProductModels } from "../product-models/store.ts";
import { putInPlace, quarantine, release, returnToMaker } from "./quarantine.ts";
import { NewPlace, Reason, STANDING_FILTERS, STOCK_STANDINGS } from "./schemas.ts";
import { STOCK_COLUMNS, sortedStock } from "./sorted-store.ts";
import { countStock, stockPlaces } from "./store.ts";
import { withinStock } from "./within.ts";

const PATH = "/goods-in/stock";
const USUAL = "-received";
const CHOICES_MOST = 200;
const COUNTS_MOST = 500;
const Query = z.object({
  ...sortedQuery(STOCK_COLUMNS),
  modelId: asked(z.guid()),
  place: asked(z.string().max(60)),
  serial: asked(z.string().trim().max(64)),
  standing: asked(z.enum(STOCK_STANDINGS)),
});

export const stockPages: Feature = async (app, { db, now }) => {
  app.get("/goods-in/stock", {
    schema: { operationId: "stockPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { language } = request;
      const { firmId, roles } = signedIn(request);
      const { sort: _sort, cursor: _cursor, standing, ...query } = request.query;
      const filter = {
        ...{ ...query, ...(standing ? STANDING_FILTERS[standing] : {}) },
        ...{ sorting: sortingOf(request.query, USUAL), most: A_PAGE + 1 },
      };
      const data = await inFirm(db, firmId, async (tx) => ({
        firm: await readFirm(tx),
        found: await sortedStock(tx, filter),
        counts: await countStock(tx, COUNTS_MOST),
        models: await listProductModels(tx, { most: CHOICES_MOST }),
        places: await stockPlaces(tx, CHOICES_MOST),
      }));
      const { rows, list } = sortedPage(data.found, {
        ...{ path: PATH, columns: STOCK_COLUMNS, usual: USUAL, query: request.query },
        exportPath: "/api/v1/exports/stock.csv",
      });
      return sendPage(request, reply, "stock", {
        title: say(language, "kit.stock"),
        styles: ["job"],
        within: withinStock("/goods-in/stock", language),
        counts: data.counts,
        units: rows.map((row) => ({
          ...row,
          at: row.receivedAt && dayAndTime(language, row.receivedAt, data.firm.timeZone),
          conditionName: row.condition && say(language, `kit.condition.${row.condition}`),
        })),
        filter: { ...query, standing },
        models: data.models.map(({ id, code }) => ({ id, code, chosen: id === query.modelId })),
        places: data.places.map((place) => ({ place, chosen: place === query.place })),
        standings: standingChoices(standing, language),
        ...rightsOf(roles),
        list,
      });
    },
  });

  const acts = [
    { path: "quarantine", operationId: "quarantineUnitForm", act: quarantine },
    { path: "quarantine-release", operationId: "releaseUnitForm", act: release },
    { path: "return-to-maker", operationId: "returnUnitForm", act: returnToMaker },
  ] as const;
  for (const { path, operationId, act } of acts) {
    app.post(`/goods-in/stock/:id/${path}`, {
      schema: { operationId, hide: true, params: IdParams, body: Reason },
      handler: async (request, reply) => {
        const session = signedIn(request);
        const { id: unitId } = request.params;
        const { reason } = request.body;
        const { personId } = session;
        await inFirmAs(db, session, (tx) => act(tx, { unitId, reason, personId, at: now() }));
        return reply.redirect("/goods-in/stock", 303);
      },
    });
  }

  app.post("/goods-in/stock/:id/place", {
    schema: { operationId: "placeUnitForm", hide: true, params: IdParams, body: NewPlace },
    handler: async (request, reply) => {
      const { id } = request.params;
      await inFirmAs(db, signedIn(request), (tx) => putInPlace(tx, id, request.body.place));
      return reply.redirect("/goods-in/stock", 303);
    },
  });
};

const standingChoices = (
  standing: (typeof STOCK_STANDINGS)[number] | undefined,
  language: ShownLanguage,
) =>
  STOCK_STANDINGS.map((value) => ({
    ...{ value, text: say(language, `kit.standing.${value}`), chosen: value === standing },
  }));

function rightsOf(roles: readonly Role[]) {
  const may = (...wanted: Role[]) => roles.some((role) => wanted.includes(role));
  return {
    mayRelease: may("manager"),
    mayReturn: may("owner", "office", "manager"),
    mayMove: may("owner", "office", "installer"),
    mayQuarantine: may("owner", "office", "manager", "installer"),
  };
}
