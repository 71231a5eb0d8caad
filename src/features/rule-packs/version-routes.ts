import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findPack } from "./choose-pack.ts";
import { noSuchPack } from "./keep-pack.ts";
import {
  RulePackParams,
  RulePackShown,
  RulePackVersionPage,
  RulePackVersionParams,
  RulePackVersionQuery,
} from "./schemas.ts";
import { findPackHead, listPackVersions } from "./store.ts";

const TAGS = ["Rule packs"];

export const rulePackVersionRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/rule-packs/:id/versions", {
    schema: {
      operationId: "listRulePackVersions",
      summary: "List the versions of a rule pack of the firm's own, the first one first",
      tags: TAGS,
      params: RulePackParams,
      querystring: RulePackVersionQuery,
      response: { 200: RulePackVersionPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const head = await findPackHead(tx, id);
        if (!head) throw noSuchPack(id);
        return listPackVersions(tx, head.id, { after: afterId(cursor), most: limit + 1 });
      });
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/rule-packs/:id/versions/:number", {
    schema: {
      operationId: "readRulePackVersion",
      summary: "Read one version of a rule pack of the firm's own",
      tags: TAGS,
      params: RulePackVersionParams,
      response: { 200: RulePackShown, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { id, number } = request.params;
      const chosen = await inFirm(db, signedIn(request).firmId, (tx) => findPack(tx, id, number));
      if (!chosen) throw noSuchPack(id);
      const { pack, version } = chosen;
      const { region, title } = pack;
      return {
        id,
        region,
        title,
        builtIn: false,
        version,
        document: pack as Record<string, unknown>,
      };
    },
  });
};

type Row = Awaited<ReturnType<typeof listPackVersions>>[number];

const shown = (row: Row) => ({
  id: row.id,
  number: row.number,
  sha256: row.sha256,
  savedById: row.personId,
  savedAt: row.createdAt.toISOString(),
});
