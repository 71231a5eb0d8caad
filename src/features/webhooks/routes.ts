import { inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { listDeliveries, sendAgain } from "./delivery-store.ts";
import { seal } from "./endpoint-secrets.ts";
import {
  DeliveryPage,
  DeliveryQuery,
  Endpoint,
  EndpointEdit,
  EndpointList,
  MadeEndpoint,
  NewEndpoint,
  Replay,
} from "./schemas.ts";
import { shownDelivery, shownEndpoint } from "./shown.ts";
import { newWebhookSecret } from "./signature.ts";
import {
  addEndpoint,
  countEndpoints,
  editEndpoint,
  findEndpoint,
  listEndpoints,
  newEndpointId,
} from "./store.ts";

const TAGS = ["Webhooks"];
const ENDPOINTS_MOST = 20;
/** Both secrets sign for so long after one was replaced. */
const OVERLAP_MS = 24 * 3_600_000;

export const webhookRoutes: Feature = async (app, { db, config, now }) => {
  app.get("/api/v1/webhooks", {
    schema: {
      operationId: "listWebhooks",
      summary: "List the endpoints to which events are sent",
      tags: TAGS,
      response: { 200: EndpointList, ...problems(401, 403) },
    },
    handler: async (request) => ({
      items: (await inFirm(db, signedIn(request).firmId, listEndpoints)).map(shownEndpoint),
    }),
  });

  app.post("/api/v1/webhooks", {
    schema: {
      operationId: "addWebhook",
      summary: "Send events to an address; its secret is shown once",
      description:
        "Standard Webhooks 1.0. Internal addresses are refused at each attempt; redirects are " +
        "not followed.",
      tags: TAGS,
      body: NewEndpoint,
      response: { 201: MadeEndpoint, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const id = newEndpointId();
      const secret = newWebhookSecret();
      const sealedSecret = seal(config.dataFolder, id, secret);
      const row = await inFirm(db, firmId, async (tx) => {
        if ((await countEndpoints(tx)) >= ENDPOINTS_MOST) throw tooMany();
        return addEndpoint(tx, { id, ...request.body, sealedSecret, createdById: personId });
      });
      return reply.code(201).send({ ...shownEndpoint(row), secret });
    },
  });

  app.patch("/api/v1/webhooks/:id", {
    schema: {
      operationId: "editWebhook",
      summary: "Change an endpoint's address or events, disable it or use it again",
      tags: TAGS,
      params: IdParams,
      body: EndpointEdit,
      response: { 200: Endpoint, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findEndpoint(tx, id))) throw notFound("webhook");
        const again = request.body.state === "active" ? { failingSince: null } : {};
        if (!(await editEndpoint(tx, id, version, { ...request.body, ...again }))) {
          throw editedMeanwhile();
        }
        return findEndpoint(tx, id);
      });
      if (!row) throw notFound("webhook");
      sendETag(reply, row.version);
      return shownEndpoint(row);
    },
  });

  app.post("/api/v1/webhooks/:id/secret", {
    schema: {
      operationId: "replaceWebhookSecret",
      summary: "Replace the secret; for a day both sign",
      tags: TAGS,
      params: IdParams,
      response: { 201: MadeEndpoint, ...problems(401, 403, 404, 412, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const secret = newWebhookSecret();
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const before = await findEndpoint(tx, id);
        if (!before) throw notFound("webhook");
        const change = {
          sealedSecret: seal(config.dataFolder, id, secret),
          sealedPrevious: new Uint8Array(before.sealedSecret),
          previousUntil: new Date(now().getTime() + OVERLAP_MS),
        };
        if (!(await editEndpoint(tx, id, before.version, change))) throw editedMeanwhile();
        return findEndpoint(tx, id);
      });
      if (!row) throw notFound("webhook");
      return reply.code(201).send({ ...shownEndpoint(row), secret });
    },
  });

  app.get("/api/v1/webhooks/:id/deliveries", {
    schema: {
      operationId: "listWebhookDeliveries",
      summary: "See what was sent, the latest first, and how it went",
      tags: TAGS,
      params: IdParams,
      querystring: DeliveryQuery,
      response: { 200: DeliveryPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, state } = request.query;
      const endpointId = request.params.id;
      const before = afterId(cursor);
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findEndpoint(tx, endpointId))) throw notFound("webhook");
        return listDeliveries(tx, {
          ...{ endpointId, most: limit + 1 },
          ...(state ? { state } : {}),
          ...(before ? { before } : {}),
        });
      });
      return toPage(request, reply, rows.map(shownDelivery), limit, ({ id }) => id);
    },
  });

  app.post("/api/v1/webhooks/:id/replay", {
    schema: {
      operationId: "replayWebhook",
      summary: "Send one delivery again, or all that failed since a time",
      tags: TAGS,
      params: IdParams,
      body: Replay,
      response: { 201: EndpointList.shape.items.element, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await findEndpoint(tx, request.params.id);
        if (!row) throw notFound("webhook");
        const { deliveryId, since } = request.body;
        const wish = { deliveryId, since: since === undefined ? undefined : new Date(since) };
        if ((await sendAgain(tx, row.id, wish, now())) === 0) {
          throw new Problem("conflict", "There is nothing to send again.");
        }
        return { body: shownEndpoint(row) };
      }),
  });
};

const tooMany = (): Problem =>
  new Problem("conflict", `A firm has at most ${ENDPOINTS_MOST} webhooks. Change one of them.`);
