import { inFirm } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import {
  NewRing,
  Ring,
  RingEdit,
  RingList,
  RingRule,
  RingRuleResult,
  RingSites,
} from "./ring-schemas.ts";
import {
  addRing,
  editRing,
  findRing,
  listRings,
  putSitesByRule,
  putSitesIntoRing,
} from "./ring-store.ts";

const TAGS = ["Firmware"];

export const firmwareRingRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/firmware/rings", {
    schema: {
      operationId: "listFirmwareRings",
      summary: "List the rings through which releases go",
      tags: TAGS,
      response: { 200: RingList, ...problems(401, 403) },
    },
    handler: async (request) => ({
      items: await inFirm(db, signedIn(request).firmId, listRings),
    }),
  });

  app.post("/api/v1/firmware/rings", {
    schema: {
      operationId: "addFirmwareRing",
      summary: "Add a ring",
      tags: TAGS,
      body: NewRing,
      response: { 201: Ring, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await addRing(tx, request.body);
        if (!row) throw ringTaken();
        return { version: row.version, body: { ...row, siteCount: 0 } };
      }),
  });

  app.patch("/api/v1/firmware/rings/:id", {
    schema: {
      operationId: "editFirmwareRing",
      summary: "Change a ring's name, place or criteria",
      tags: TAGS,
      params: IdParams,
      body: RingEdit,
      response: { 200: Ring, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findRing(tx, id))) throw notFound("ring");
        if (!(await editRing(tx, id, version, request.body))) throw editedMeanwhile();
        return (await listRings(tx)).find((one) => one.id === id);
      });
      if (!row) throw notFound("ring");
      sendETag(reply, row.version);
      return row;
    },
  });

  app.put("/api/v1/firmware/rings/:id/sites", {
    schema: {
      operationId: "putFirmwareRingSites",
      summary: "Put sites into a ring; a site is in one ring at most",
      tags: TAGS,
      params: IdParams,
      body: RingSites,
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { siteIds } = request.body;
      await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findRing(tx, request.params.id))) throw notFound("ring");
        const found = await putSitesIntoRing(tx, siteIds, request.params.id);
        if (found < new Set(siteIds).size) {
          throw invalid("/body/siteIds", "Some of these sites are not in your firm.");
        }
      });
      return reply.code(204).send();
    },
  });

  app.post("/api/v1/firmware/rings/:id/placements", {
    schema: {
      operationId: "placeFirmwareRingSites",
      summary: "Put sites into a ring by a rule: a share of a region's or a model's",
      tags: TAGS,
      params: IdParams,
      body: RingRule,
      response: { 201: RingRuleResult, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { id } = request.params;
        if (!(await findRing(tx, id))) throw notFound("ring");
        return { body: await putSitesByRule(tx, id, request.body) };
      }),
  });
};

const ringTaken = (): Problem =>
  new Problem("conflict", "Another ring has this name or this place. Choose others.");
