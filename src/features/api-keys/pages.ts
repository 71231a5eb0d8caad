import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayBounds } from "../../domain/dates/zone-time.ts";
import { notFound } from "../../errors.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams, plainDate } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  listOf,
  readForm,
  refusedFields,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { makeKey } from "./make-key.ts";
import { KEY_STANDINGS, NewApiKey } from "./schemas.ts";
import { SCOPE_NAMES } from "./scope-names.ts";
import { COLUMNS, sortedKeys } from "./sorted-store.ts";
import { findKey, revokeKey } from "./store.ts";

const PATH = "/api-keys";
const USUAL = "-made";
const PageQuery = z.object({
  ...sortedQuery(COLUMNS),
  standing: asked(z.enum(KEY_STANDINGS)),
});
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const KeyForm = NewApiKey.omit({ expiresAt: true }).extend({ lastDay: plainDate().optional() });

interface Shown {
  typed?: FormBody;
  problems?: FieldProblems;
  /** The text of a key that was just made: shown this once. */
  token?: string;
}

export const apiKeyPages: Feature = async (app, { db, now }) => {
  app.get("/api-keys", {
    schema: { operationId: "apiKeysPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => show(request, reply, {}),
  });

  app.post("/api-keys", {
    schema: {
      operationId: "makeApiKeyForm",
      ...{ hide: true, querystring: PageQuery, body: FormFields },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(KeyForm, { ...typed, scopes: listOf(typed.scopes) });
      if (!read.ok) return show(request, reply.code(422), { typed, problems: read.problems });
      const { firmId, personId } = signedIn(request);
      const { lastDay, ...wish } = read.value;
      try {
        const { token } = await inFirm(db, firmId, async (tx) => {
          const { timeZone } = await readFirm(tx);
          const expiresAt = lastDay === undefined ? undefined : dayBounds(lastDay, timeZone).end;
          return makeKey(tx, { ...wish, expiresAt }, personId, now());
        });
        return show(request, reply.code(201), { token });
      } catch (error) {
        const { expiresAt, ...others } = refusedFields(error);
        const problems = expiresAt === undefined ? others : { ...others, lastDay: expiresAt };
        return show(request, reply.code(422), { typed, problems });
      }
    },
  });

  app.post("/api-keys/:id/revocation", {
    schema: { operationId: "revokeApiKeyForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findKey(tx, id))) throw notFound("key");
        // Revoked before is as good.
        await revokeKey(tx, id, now());
      });
      return reply.redirect("/api-keys", 303);
    },
  });

  async function show(request: FastifyRequest, reply: FastifyReply, shown: Shown) {
    const { language } = request;
    const query = request.query as z.infer<typeof PageQuery>;
    const { standing } = query;
    const asks = { standing, now: now(), sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
    const { timeZone, found } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      timeZone: (await readFirm(tx)).timeZone,
      found: await sortedKeys(tx, asks),
    }));
    const { rows, list } = sortedPage(found, {
      ...{ path: PATH, columns: COLUMNS, usual: USUAL, query },
      exportPath: "/api/v1/exports/api-keys.csv",
    });
    const time = (at: Date | null) => (at ? dayAndTime(language, at, timeZone) : undefined);
    const ticked = listOf(shown.typed?.scopes);
    return sendPage(request, reply, "api-keys", {
      title: say(language, "apiKeys.title"),
      ...{ typed: shown.typed ?? {}, problems: shown.problems, token: shown.token },
      ...{ list, filter: { standing }, filtered: standing !== undefined },
      standings: KEY_STANDINGS.map((value) => ({
        ...{ value, text: say(language, `apiKeys.only.${value}`) },
      })),
      keys: rows.map((row) => ({
        ...{ id: row.id, name: row.name, by: row.createdBy.name },
        scopes: row.scopes.map((scope) => scopeText(scope as Scope)).join(", "),
        ...{ made: time(row.createdAt), used: time(row.lastUsedAt), ends: time(row.expiresAt) },
        revoked: time(row.revokedAt),
        isOver: row.expiresAt !== null && row.expiresAt < asks.now,
      })),
      scopeChoices: SCOPE_NAMES.map((value) => ({
        ...{ value, text: scopeText(value), ticked: ticked.includes(value) },
      })),
    });

    function scopeText(scope: Scope): string {
      return say(language, `apiKeys.scope.${scope}`);
    }
  }
};

type Scope = (typeof SCOPE_NAMES)[number];
