import { z } from "zod";
import { inFirmAs } from "../../db/scope.ts";
import type { App, Context, Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { signedIn } from "../../web/session.ts";
import { orRefusal } from "./or-refusal.ts";
import type { ChangeKind } from "./store.ts";
import { undoChange } from "./undo-change.ts";

const UndoForm = z.object({ changeId: z.guid() });

const SUBJECTS: readonly { kind: ChangeKind; path: string; operation: string }[] = [
  { kind: "customer", path: "/customers", operation: "undoCustomerForm" },
  { kind: "site", path: "/sites", operation: "undoSiteForm" },
  { kind: "unit", path: "/units", operation: "undoUnitForm" },
  { kind: "instrument", path: "/instruments", operation: "undoInstrumentForm" },
  { kind: "person", path: "/people", operation: "undoPersonForm" },
];

/** Undoing from the pages of the things themselves. */
export const changePages: Feature = async (app, context) => {
  for (const subject of SUBJECTS) undoForm(app, context, subject);
};

function undoForm(
  app: App,
  { db, now, liveness }: Context,
  { kind, path, operation }: (typeof SUBJECTS)[number],
): void {
  app.post(`${path}/:id/undo`, {
    schema: { operationId: operation, hide: true, params: IdParams, body: UndoForm },
    handler: async (request, reply) => {
      const { id: subjectId } = request.params;
      const page = `${path}/${subjectId}`;
      return orRefusal(request, reply, page, async () => {
        const change = await inFirmAs(db, signedIn(request), (tx) =>
          undoChange(tx, { kind, subjectId, id: request.body.changeId }, now()),
        );
        // Roles may have changed, and sessions with them.
        if (kind === "person") liveness.forget();
        return `${page}?saved=${change.id}`;
      });
    },
  });
}
