import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import {
  NewProductModel,
  ProductModel,
  ProductModelEdit,
  ProductModelPage,
  ProductModelQuery,
} from "./schemas.ts";
import { changeModel, setUpModel } from "./set-up-model.ts";
import { findProductModel, listProductModels, type ProductModelFields } from "./store.ts";

const TAGS = ["Product models"];

export const productModelRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/product-models", {
    schema: {
      operationId: "listProductModels",
      summary: "List product models",
      tags: TAGS,
      querystring: ProductModelQuery,
      response: { 200: ProductModelPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listProductModels(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/product-models", {
    schema: {
      operationId: "addProductModel",
      summary: "Set up a product model",
      tags: TAGS,
      body: NewProductModel,
      response: { 201: ProductModel, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await setUpModel(tx, request.body);
        const location = `/api/v1/product-models/${row.id}`;
        return { location, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/product-models/:id", {
    schema: {
      operationId: "readProductModel",
      summary: "Read one product model",
      tags: TAGS,
      params: IdParams,
      response: { 200: ProductModel, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        findProductModel(tx, request.params.id),
      );
      if (!row) throw notFound("product model");
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/product-models/:id", {
    schema: {
      operationId: "editProductModel",
      summary: "Change a product model",
      tags: TAGS,
      params: IdParams,
      body: ProductModelEdit,
      response: { 200: ProductModel, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        changeModel(tx, request.params.id, version, request.body),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};

type Row = NonNullable<Awaited<ReturnType<typeof findProductModel>>>;

function shown(row: Row) {
  return {
    ...row,
    attributes: row.attributes as ProductModelFields["attributes"],
    switchMap: row.switchMap as Record<string, unknown> | null,
    kit: row.kit as Record<string, unknown>[],
    createdAt: row.createdAt.toISOString(),
  };
}
