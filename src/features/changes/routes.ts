import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { App, Context, Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { CHANGES_MOST, Change, ChangeParams, Changes } from "./schemas.ts";
import { shownChange } from "./shown.ts";
import { type ChangeKind, isThere, listChanges } from "./store.ts";
import { undoChange } from "./undo-change.ts";

interface Subject {
  kind: ChangeKind;
  path: string;
  word: string;
  tag: string;
}

const SUBJECTS: readonly Subject[] = [
  { kind: "customer", path: "/api/v1/customers", word: "Customer", tag: "Customers" },
  { kind: "site", path: "/api/v1/sites", word: "Site", tag: "Sites" },
  { kind: "unit", path: "/api/v1/units", word: "Unit", tag: "Units" },
  { kind: "instrument", path: "/api/v1/instruments", word: "Instrument", tag: "Instruments" },
  { kind: "person", path: "/api/v1/people", word: "Person", tag: "People" },
];

export const changeRoutes: Feature = async (app, context) => {
  for (const subject of SUBJECTS) {
    listRoute(app, context, subject);
    undoRoute(app, context, subject);
  }
};

function listRoute(app: App, { db }: Context, { kind, path, word, tag }: Subject): void {
  app.get(`${path}/:id/changes`, {
    schema: {
      operationId: `list${word}Changes`,
      summary: `Who changed what of this ${kind}`,
      tags: [tag],
      params: IdParams,
      response: { 200: Changes, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const subjectId = request.params.id;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await isThere(tx, kind, subjectId))) throw notFound(kind);
        return listChanges(tx, { kind, subjectId, most: CHANGES_MOST });
      });
      return { items: rows.map((row, index) => shownChange(row, index === 0)) };
    },
  });
}

function undoRoute(app: App, context: Context, { kind, path, word, tag }: Subject): void {
  const { db, now, liveness } = context;
  app.post(`${path}/:id/changes/:changeId/undo`, {
    schema: {
      operationId: `undo${word}Change`,
      summary: `Put back what a change of this ${kind} replaced`,
      description: "Refused, with who did it, where somebody has changed it since.",
      tags: [tag],
      params: ChangeParams,
      response: { 200: Change, ...problems(401, 403, 404, 409, 412, 422) },
    },
    handler: async (request, reply) => {
      const { id: subjectId, changeId: id } = request.params;
      const made = await create(db, request, reply, async (tx) => {
        const change = await undoChange(tx, { kind, subjectId, id }, now());
        return { status: 200, body: shownChange(change, true) };
      });
      // Roles may have changed, and sessions with them.
      if (kind === "person") liveness.forget();
      return made;
    },
  });
}
