import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, PAGE_QUERY, toPage } from "../../web/paging.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findProductModel } from "../product-models/store.ts";
import { domainTerms } from "./judge.ts";
import { keepTerms, takeTermsBack } from "./keep-terms.ts";
import { dayText } from "./keep-warranty.ts";
import { NewTerms, Terms, TermsPage } from "./schemas.ts";
import { listTerms, type TermsRow } from "./store.ts";

const TAGS = ["Warranty"];
const VersionParams = IdParams.extend({ number: z.coerce.number().int().min(1).max(10_000) });

export const warrantyTermsRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/product-models/:id/warranty-terms", {
    schema: {
      operationId: "listWarrantyTerms",
      summary: "List the versions of a model's warranty terms, the latest first",
      tags: TAGS,
      params: IdParams,
      querystring: z.strictObject(PAGE_QUERY),
      response: { 200: TermsPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findProductModel(tx, id))) throw notFound("product model");
        return listTerms(tx, id, { before: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/product-models/:id/warranty-terms", {
    schema: {
      operationId: "addWarrantyTerms",
      summary: "Store the next version of a model's warranty terms",
      description:
        "A version is never changed. It applies to units commissioned from its day on, until the " +
        "next one applies; a unit keeps the version of its commissioning.",
      tags: TAGS,
      params: IdParams,
      body: NewTerms,
      response: { 201: Terms, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const by = { personId: signedIn(request).personId, now: now() };
        return { body: shown(await keepTerms(tx, request.params.id, request.body, by)) };
      }),
  });

  app.delete("/api/v1/product-models/:id/warranty-terms/:number", {
    schema: {
      operationId: "removeWarrantyTerms",
      summary: "Take back the latest version, entered by a slip",
      description: "Refused once a claim was opened for a unit of the model since.",
      tags: TAGS,
      params: VersionParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { id, number } = request.params;
      await inFirm(db, signedIn(request).firmId, (tx) => takeTermsBack(tx, id, number));
      return reply.code(204).send();
    },
  });
};

const shown = (row: TermsRow): z.infer<typeof Terms> => ({
  ...domainTerms(row),
  ...{ id: row.id, number: row.number, appliesFrom: dayText(row.appliesFrom) },
  ...(row.source === null ? {} : { source: row.source }),
  createdAt: row.createdAt.toISOString(),
});
