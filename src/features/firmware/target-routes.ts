import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { NewTarget, Target } from "./schemas.ts";
import { setTarget } from "./set-target.ts";
import { shownTarget } from "./shown-target.ts";
import { findTarget } from "./target-store.ts";

const TAGS = ["Firmware"];

export const firmwareTargetRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/product-models/:id/firmware-target", {
    schema: {
      operationId: "readFirmwareTarget",
      summary: "Read which release a model's units should have",
      tags: TAGS,
      params: IdParams,
      response: { 200: Target, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        findTarget(tx, request.params.id),
      );
      if (!row) throw notFound("firmware target");
      sendETag(reply, row.version);
      return shownTarget(row);
    },
  });

  app.put("/api/v1/product-models/:id/firmware-target", {
    schema: {
      operationId: "setFirmwareTarget",
      summary: "Set which release a model's units should have, and by when",
      description: "If-Match is needed, and accepted, only where there is a target already.",
      tags: TAGS,
      params: IdParams,
      body: NewTarget,
      response: { 200: Target, 201: Target, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { releaseId, dueOn, ringId = null, region = null } = request.body;
      const version =
        request.headers["if-match"] === undefined ? undefined : matchedVersion(request);
      const scope = { ringId, region };
      const wish = { modelId: request.params.id, releaseId, dueOn, personId, version, scope };
      const { target, created } = await inFirm(db, firmId, (tx) => setTarget(tx, wish, now()));
      sendETag(reply, target.version);
      return reply.code(created ? 201 : 200).send(shownTarget(target));
    },
  });
};
