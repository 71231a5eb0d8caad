import { inFirm } from "../../db/scope.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { create } from "../../web/idempotency.ts";
import { afterText, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { type ChosenPack, findPack } from "./choose-pack.ts";
import { allPackHeads } from "./heads.ts";
import { changePack, noSuchPack, takeOnPack } from "./keep-pack.ts";
import {
  RulePackBody,
  RulePackPage,
  RulePackParams,
  RulePackQuery,
  RulePackShown,
} from "./schemas.ts";

const TAGS = ["Rule packs"];

export const rulePackRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/rule-packs", {
    schema: {
      operationId: "listRulePacks",
      summary: "List the rule packs: those that come with the product, and the firm's own",
      tags: TAGS,
      querystring: RulePackQuery,
      response: { 200: RulePackPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, region } = request.query;
      const after = afterText(cursor) ?? "";
      const heads = await inFirm(db, signedIn(request).firmId, (tx) => allPackHeads(tx, region));
      const left = heads.filter((head) => head.id > after);
      return toPage(request, reply, left, limit, (head) => head.id);
    },
  });

  app.post("/api/v1/rule-packs", {
    schema: {
      operationId: "addRulePack",
      summary: "Add a rule pack of the firm's own",
      description: "Faults in the document are told with the pointer of each.",
      tags: TAGS,
      body: RulePackBody,
      response: { 201: RulePackShown, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) => {
      const { personId } = signedIn(request);
      return create(db, request, reply, async (tx) => {
        await takeOnPack(tx, { pack: request.body, personId }, now());
        const location = `/api/v1/rule-packs/${request.body.id}`;
        return { location, version: 1, body: shown({ pack: request.body, version: 1 }) };
      });
    },
  });

  app.get("/api/v1/rule-packs/:id", {
    schema: {
      operationId: "readRulePack",
      summary: "Read one rule pack with its rules, sources and editions",
      tags: TAGS,
      params: RulePackParams,
      response: { 200: RulePackShown, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const chosen = await inFirm(db, signedIn(request).firmId, (tx) => findPack(tx, id));
      if (!chosen) throw noSuchPack(id);
      if (chosen.version !== null) sendETag(reply, chosen.version);
      return shown(chosen);
    },
  });

  app.put("/api/v1/rule-packs/:id", {
    schema: {
      operationId: "putRulePack",
      summary: "Replace a rule pack of the firm's own by a new version; earlier ones stay",
      description: "The same document again changes nothing.",
      tags: TAGS,
      params: RulePackParams,
      body: RulePackBody,
      response: { 200: RulePackShown, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id } = request.params;
      const version = matchedVersion(request);
      const saving = { pack: request.body, personId };
      const chosen = await inFirm(db, firmId, async (tx) => {
        await changePack(tx, id, version, saving, now());
        return findPack(tx, id);
      });
      if (!chosen) throw noSuchPack(id);
      sendETag(reply, chosen.version ?? version);
      return shown(chosen);
    },
  });
};

const shown = ({ pack, version }: ChosenPack) => ({
  id: pack.id,
  region: pack.region,
  title: pack.title,
  builtIn: version === null,
  version,
  document: pack as Record<string, unknown>,
});
