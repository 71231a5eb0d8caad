import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { changeCustomer } from "./edit-customer.ts";
import { Customer, CustomerEdit, CustomerPage, CustomerQuery, NewCustomer } from "./schemas.ts";
import { addCustomer, findCustomer, listCustomers } from "./store.ts";

const TAGS = ["Customers"];

export const customerRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/customers", {
    schema: {
      operationId: "listCustomers",
      summary: "List customers",
      tags: TAGS,
      querystring: CustomerQuery,
      response: { 200: CustomerPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listCustomers(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/customers", {
    schema: {
      operationId: "addCustomer",
      summary: "Take on a customer",
      tags: TAGS,
      body: NewCustomer,
      response: { 201: Customer, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const row = await addCustomer(tx, request.body, now());
        return { location: `/api/v1/customers/${row.id}`, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/customers/:id", {
    schema: {
      operationId: "readCustomer",
      summary: "Read one customer",
      tags: TAGS,
      params: IdParams,
      response: { 200: Customer, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        findCustomer(tx, request.params.id),
      );
      if (!row) throw notFound("customer");
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/customers/:id", {
    schema: {
      operationId: "editCustomer",
      summary: "Change, archive or bring back a customer",
      tags: TAGS,
      params: IdParams,
      body: CustomerEdit,
      response: { 200: Customer, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirmAs(db, signedIn(request), (tx) =>
        changeCustomer(tx, request.params.id, version, request.body, now()),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};

type Row = NonNullable<Awaited<ReturnType<typeof findCustomer>>>;

function shown(row: Row) {
  const { archivedAt, createdAt, emailFailingAt } = row;
  return {
    ...row,
    emailFailingAt: emailFailingAt?.toISOString() ?? null,
    archivedAt: archivedAt?.toISOString() ?? null,
    createdAt: createdAt.toISOString(),
  };
}
