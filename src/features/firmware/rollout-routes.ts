import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { Hold, NewRollout, Rollout, RolloutTarget } from "./ring-schemas.ts";
import { completeRollOut, holdRing, openRing, rollOut, startRollOut } from "./roll-out.ts";
import { shownTarget } from "./shown-target.ts";

const TAGS = ["Firmware"];

export const firmwareRolloutRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/product-models/:id/firmware-rollout", {
    schema: {
      operationId: "readFirmwareRollout",
      summary: "Read a model's targets with what each ring has come to",
      tags: TAGS,
      params: IdParams,
      response: { 200: Rollout, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        rollOut(tx, request.params.id, now()),
      );
      return { items: rows.map(shown) };
    },
  });

  app.post("/api/v1/product-models/:id/firmware-rollout", {
    schema: {
      operationId: "startFirmwareRollout",
      summary: "Send a release through the rings",
      tags: TAGS,
      params: IdParams,
      body: NewRollout,
      response: { 201: Rollout, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const wish = { modelId: request.params.id, ...request.body, personId };
        const items = (await startRollOut(tx, wish, now())).map(shown);
        return { body: { items } };
      }),
  });

  app.post("/api/v1/product-models/:id/firmware-rollout/completion", {
    schema: {
      operationId: "completeFirmwareRollout",
      summary: "Make the release the target everywhere once every ring has passed",
      tags: TAGS,
      params: IdParams,
      response: { 201: Rollout, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        await completeRollOut(tx, request.params.id, signedIn(request).personId, now());
        return { body: { items: (await rollOut(tx, request.params.id, now())).map(shown) } };
      }),
  });

  app.post("/api/v1/firmware/targets/:id/opening", {
    schema: {
      operationId: "openFirmwareRing",
      summary: "Open a ring that waits or was held",
      tags: TAGS,
      params: IdParams,
      response: { 201: RolloutTarget, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      return create(db, request, reply, async (tx) =>
        made(await openRing(tx, request.params.id, version, now())),
      );
    },
  });

  app.post("/api/v1/firmware/targets/:id/hold", {
    schema: {
      operationId: "holdFirmwareRing",
      summary: "Stop a release in a ring",
      tags: TAGS,
      params: IdParams,
      body: Hold,
      response: { 201: RolloutTarget, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { reason } = request.body;
      return create(db, request, reply, async (tx) =>
        made(await holdRing(tx, request.params.id, version, reason)),
      );
    },
  });
};

type RollOutRow = Awaited<ReturnType<typeof rollOut>>[number];

const shown = ({ target, progress }: RollOutRow): z.infer<typeof RolloutTarget> => ({
  ...shownTarget(target),
  ring: target.ring?.name ?? null,
  progress,
});

function made(target: RollOutRow["target"] | null) {
  if (!target) throw notFound("ring's target");
  return { version: target.version, body: shown({ target, progress: null }) };
}
