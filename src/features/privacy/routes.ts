import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { dropFiles, eraseInRecord } from "./erase.ts";
import { readPersonalData } from "./personal-data-store.ts";
import { allPeriods } from "./retention.ts";
import {
  Erasure,
  ErasurePage,
  ErasureQuery,
  NewErasure,
  PersonalData,
  Retention,
} from "./schemas.ts";
import { shownErasure } from "./shown.ts";
import { listErasures, putRetention } from "./store.ts";

const TAGS = ["Personal data"];

export const privacyRoutes: Feature = async (app, { db, config, now }) => {
  app.get("/api/v1/customers/:id/personal-data", {
    schema: {
      operationId: "readPersonalData",
      summary: "Read all that is held about a customer",
      description:
        "For the customer who asks for it: name and addresses, sites, jobs, visits, mails, " +
        "documents, links, changes, signatures, photos by their hash, what people wrote on the " +
        "jobs; at most 1,000 of each.",
      tags: TAGS,
      params: IdParams,
      response: { 200: PersonalData, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const data = await inFirm(db, signedIn(request).firmId, (tx) => readPersonalData(tx, id));
      if (!data) throw notFound("customer");
      const name = `personal-data-${data.customer.reference}.json`;
      reply.header("content-disposition", `attachment; filename="${name}"`);
      return JSON.parse(JSON.stringify(data)) as typeof data & Record<string, unknown>;
    },
  });

  app.post("/api/v1/customers/:id/erasure", {
    schema: {
      operationId: "eraseCustomer",
      summary: "Erase what is held about an archived customer, for good",
      description:
        "Names, addresses, notes, mails, messages and the history of changes go; so do papers " +
        "that were drawn, and what people wrote on the jobs: names beside signatures, notes, " +
        "snags, reasons. Readings, verdicts, photos, documents and ledgers stay and verify.",
      tags: TAGS,
      params: IdParams,
      body: NewErasure,
      response: { 201: Erasure, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const ask = { customerId: request.params.id, personId, ...request.body };
      let files: Parameters<typeof dropFiles>[2] = { jobIds: [], mailIds: [] };
      const body = await create(db, request, reply, async (tx) => {
        const { erasure, ...dropped } = await eraseInRecord(tx, ask, now());
        files = dropped;
        return { location: "/api/v1/erasures", body: shownErasure(erasure) };
      });
      await dropFiles(config.dataFolder, firmId, files);
      return body;
    },
  });

  app.get("/api/v1/erasures", {
    schema: {
      operationId: "listErasures",
      summary: "List what was erased, the latest first",
      tags: TAGS,
      querystring: ErasureQuery,
      response: { 200: ErasurePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const after = afterId(cursor);
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listErasures(tx, { most: limit + 1, ...(after ? { after } : {}) }),
      );
      return toPage(request, reply, rows.map(shownErasure), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/retention", {
    schema: {
      operationId: "readRetention",
      summary: "Read how long your firm keeps what is no part of the technical record",
      tags: TAGS,
      response: { 200: Retention, ...problems(401, 403) },
    },
    handler: async (request) => inFirm(db, signedIn(request).firmId, allPeriods),
  });

  app.put("/api/v1/retention", {
    schema: {
      operationId: "putRetention",
      summary: "Say how long it is kept; what is older goes with the next daily run",
      tags: TAGS,
      body: Retention,
      response: { 200: Retention, ...problems(401, 403, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, async (tx) => {
        await putRetention(tx, request.body);
        return allPeriods(tx);
      }),
  });
};
