import { inFirm } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findSite } from "../sites/store.ts";
import { changeBank, type KeptBank, nameTaken, readBank } from "./change-bank.ts";
import { putPacks } from "./put-packs.ts";
import { Bank, BankEdit, BankPacks, BankPage, BankQuery, NewBank } from "./schemas.ts";
import { addBank, editBank, listBanks } from "./store.ts";

const TAGS = ["Banks"];

export const bankRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/banks", {
    schema: {
      operationId: "listBanks",
      summary: "List banks with their packs in order",
      tags: TAGS,
      querystring: BankQuery,
      response: { 200: BankPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, siteId } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listBanks(tx, { siteId, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/banks", {
    schema: {
      operationId: "addBank",
      summary: "Add a bank to a site",
      tags: TAGS,
      body: NewBank,
      response: { 201: Bank, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { siteId, name } = request.body;
        if (!(await findSite(tx, siteId))) {
          throw invalid("/body/siteId", "There is no such site in your firm.");
        }
        const id = await addBank(tx, request.body);
        if (id === undefined) throw nameTaken(name);
        const row = await readBank(tx, id);
        return { location: `/api/v1/banks/${id}`, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/banks/:id", {
    schema: {
      operationId: "readBank",
      summary: "Read one bank with its packs in order",
      tags: TAGS,
      params: IdParams,
      response: { 200: Bank, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readBank(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/banks/:id", {
    schema: {
      operationId: "editBank",
      summary: "Change a bank's name or protocol",
      tags: TAGS,
      params: IdParams,
      body: BankEdit,
      response: { 200: Bank, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        changeBank(tx, request.params.id, version, request.body),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.put("/api/v1/banks/:id/packs", {
    schema: {
      operationId: "putBankPacks",
      summary: "Say which packs the bank is made of, and where each stands",
      tags: TAGS,
      params: IdParams,
      body: BankPacks,
      response: { 200: Bank, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const bank = await readBank(tx, request.params.id);
        if (!(await editBank(tx, bank.id, version, {}))) throw editedMeanwhile();
        await putPacks(tx, bank, request.body.packs);
        return readBank(tx, bank.id);
      });
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};

function shown({ units, createdAt, ...bank }: KeptBank) {
  return {
    ...bank,
    packs: units.map((unit) => ({
      unitId: unit.id,
      serial: unit.serial,
      modelId: unit.modelId,
      modelCode: unit.model.code,
      position: unit.bankPosition,
      firmwareLevel: unit.firmwareLevel,
    })),
    createdAt: createdAt.toISOString(),
  };
}
