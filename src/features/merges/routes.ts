import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { App, Context, Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { duplicatesOf } from "./candidates.ts";
import { mergeRecords } from "./merge-records.ts";
import { Duplicates, Merge, MergeParams, NewMerge } from "./schemas.ts";
import { shownMerge } from "./shown.ts";
import type { MergeKind } from "./store.ts";
import { undoMerge } from "./undo-merge.ts";

interface Subject {
  kind: MergeKind;
  path: string;
  word: string;
}

const SUBJECTS: readonly Subject[] = [
  { kind: "customer", path: "/api/v1/customers", word: "Customer" },
  { kind: "site", path: "/api/v1/sites", word: "Site" },
];

export const mergeRoutes: Feature = async (app, context) => {
  for (const subject of SUBJECTS) {
    duplicateRoute(app, context, subject);
    mergeRoute(app, context, subject);
    undoRoute(app, context, subject);
  }
};

function duplicateRoute(app: App, { db }: Context, { kind, path, word }: Subject): void {
  app.get(`${path}/:id/duplicates`, {
    schema: {
      operationId: `list${word}Duplicates`,
      summary: `${word}s that may be the same one, with the reasons`,
      tags: [`${word}s`],
      params: IdParams,
      response: { 200: Duplicates, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const items = await inFirm(db, signedIn(request).firmId, (tx) =>
        duplicatesOf(tx, kind, request.params.id),
      );
      if (!items) throw notFound(kind);
      return { items };
    },
  });
}

function mergeRoute(app: App, { db, now }: Context, { kind, path, word }: Subject): void {
  app.post(`${path}/:id/merge`, {
    schema: {
      operationId: `merge${word}`,
      summary: `Make a duplicate ${kind} part of another`,
      description:
        "Everything that points at it points at the other afterwards; its reference is still " +
        "found and leads there. It can be undone while nobody has changed anything of it.",
      tags: [`${word}s`],
      params: IdParams,
      body: NewMerge,
      response: { 201: Merge, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const wish = { kind, fromId: request.params.id, ...request.body, personId };
        const merge = await mergeRecords(tx, wish, now());
        return { location: `${path}/${merge.intoId}`, body: shownMerge(merge) };
      }),
  });
}

function undoRoute(app: App, { db, now }: Context, { kind, path, word }: Subject): void {
  app.post(`${path}/:id/merges/:mergeId/undo`, {
    schema: {
      operationId: `undo${word}Merge`,
      summary: `Take a merge of ${kind}s apart again`,
      tags: [`${word}s`],
      params: MergeParams,
      response: { 200: Merge, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { personId } = signedIn(request);
        const merge = await undoMerge(tx, request.params.mergeId, { kind, personId }, now());
        return { status: 200, body: shownMerge(merge) };
      }),
  });
}
