import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { changeSite, takeOnSite } from "./edit-site.ts";
import {
  NewSite,
  SITE_UNITS_MOST,
  Site,
  SiteEdit,
  SitePage,
  SiteQuery,
  SiteWithUnits,
} from "./schemas.ts";
import { type findSite, findSiteWithUnits, listSites } from "./store.ts";

const TAGS = ["Sites"];

export const siteRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/sites", {
    schema: {
      operationId: "listSites",
      summary: "List sites",
      tags: TAGS,
      querystring: SiteQuery,
      response: { 200: SitePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listSites(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/sites", {
    schema: {
      operationId: "addSite",
      summary: "Add a site of a customer",
      tags: TAGS,
      body: NewSite,
      response: { 201: Site, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await takeOnSite(tx, request.body, now());
        return { location: `/api/v1/sites/${row.id}`, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/sites/:id", {
    schema: {
      operationId: "readSite",
      summary: "Read one site with its units",
      tags: TAGS,
      params: IdParams,
      response: { 200: SiteWithUnits, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        findSiteWithUnits(tx, request.params.id, SITE_UNITS_MOST),
      );
      if (!row) throw notFound("site");
      sendETag(reply, row.version);
      return shownWithUnits(row);
    },
  });

  app.patch("/api/v1/sites/:id", {
    schema: {
      operationId: "editSite",
      summary: "Change, archive or bring back a site",
      tags: TAGS,
      params: IdParams,
      body: SiteEdit,
      response: { 200: Site, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirmAs(db, signedIn(request), (tx) =>
        changeSite(tx, request.params.id, version, request.body, now()),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};

type Row = NonNullable<Awaited<ReturnType<typeof findSite>>>;
type RowWithUnits = NonNullable<Awaited<ReturnType<typeof findSiteWithUnits>>>;

function shown(row: Row) {
  const { archivedAt, createdAt } = row;
  return {
    ...row,
    archivedAt: archivedAt?.toISOString() ?? null,
    createdAt: createdAt.toISOString(),
  };
}

function shownWithUnits({ units, _count, ...site }: RowWithUnits) {
  return {
    ...shown(site),
    unitCount: _count.units,
    openJobCount: _count.jobs,
    units: units.map(({ model, ...unit }) => ({
      ...unit,
      modelCode: model.code,
      kind: model.kind,
    })),
  };
}
