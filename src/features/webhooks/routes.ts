import { inFirm } from "../../db/scope.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { listDeliveries } from "./delivery-store.ts";
import {
  changeEndpoint,
  replaceSecret,
  replay,
  requireEndpoint,
  sendTrial,
  takeOnEndpoint,
} from "./keep-endpoint.ts";
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
import { listEndpoints } from "./store.ts";

const TAGS = ["Webhooks"];

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
        "Standard Webhooks 1.0, over TLS. Internal addresses are refused at each attempt; " +
        "redirects are not followed.",
      tags: TAGS,
      body: NewEndpoint,
      response: { 201: MadeEndpoint, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { row, secret } = await inFirm(db, firmId, (tx) =>
        takeOnEndpoint(tx, request.body, { personId, config }),
      );
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
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        changeEndpoint(tx, id, version, request.body, config),
      );
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
      const { dataFolder } = config;
      const { row, secret } = await inFirm(db, signedIn(request).firmId, (tx) =>
        replaceSecret(tx, request.params.id, { dataFolder, now: now() }),
      );
      return reply.code(201).send({ ...shownEndpoint(row), secret });
    },
  });

  app.post("/api/v1/webhooks/:id/trial", {
    schema: {
      operationId: "tryWebhook",
      summary: "Send an endpoint an event that tells of nothing",
      tags: TAGS,
      params: IdParams,
      response: { 201: Endpoint, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => ({
        body: shownEndpoint(await sendTrial(tx, request.params.id, now())),
      })),
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
        await requireEndpoint(tx, endpointId);
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
      summary: "Send one delivery again, or all that failed since a time, or between two",
      tags: TAGS,
      params: IdParams,
      body: Replay,
      response: { 201: EndpointList.shape.items.element, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { deliveryId, since, until } = request.body;
        const wish = { deliveryId, since: momentOf(since), until: momentOf(until) };
        const row = await replay(tx, request.params.id, wish, now());
        return { body: shownEndpoint(row) };
      }),
  });
};

const momentOf = (text: string | undefined): Date | undefined =>
  text === undefined ? undefined : new Date(text);
