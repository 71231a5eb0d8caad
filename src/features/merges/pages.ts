import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { App, Context, Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { orRefusal } from "../changes/or-refusal.ts";
import { mergeRecords } from "./merge-records.ts";
import { findMergeable, type MergeKind } from "./store.ts";
import { undoMerge } from "./undo-merge.ts";
import { shownDuplicates } from "./view.ts";

interface Subject {
  kind: MergeKind;
  path: string;
  word: string;
}

const SUBJECTS: readonly Subject[] = [
  { kind: "customer", path: "/customers", word: "Customer" },
  { kind: "site", path: "/sites", word: "Site" },
];
const MergeForm = z.object({ intoId: z.guid() });
const UndoForm = z.object({ mergeId: z.guid() });

/** Making one record of two, and two of one again, from the page of either. */
export const mergePages: Feature = async (app, context) => {
  for (const subject of SUBJECTS) {
    chooseForm(app, context, subject);
    mergeForm(app, context, subject);
    undoForm(app, context, subject);
  }
};

function chooseForm(app: App, { db }: Context, { kind, path, word }: Subject): void {
  app.get(`${path}/:id/merge`, {
    schema: { operationId: `merge${word}Page`, hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { language } = request;
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const record = await findMergeable(tx, kind, id);
        if (!record) throw notFound(kind);
        return { record, duplicates: await shownDuplicates(tx, kind, id, language) };
      });
      const { reference } = page.record;
      return sendPage(request, reply, "merge", {
        title: say(language, "registry.mergeTitle", { reference }),
        ...{ ...page, path, reference, isSite: kind === "site" },
      });
    },
  });
}

function mergeForm(app: App, { db, now }: Context, { kind, path, word }: Subject): void {
  app.post(`${path}/:id/merge`, {
    schema: { operationId: `merge${word}Form`, hide: true, params: IdParams, body: MergeForm },
    handler: async (request, reply) => {
      const { id: fromId } = request.params;
      const { intoId } = request.body;
      return orRefusal(request, reply, `${path}/${fromId}`, async () => {
        const actor = signedIn(request);
        await inFirmAs(db, actor, (tx) =>
          mergeRecords(tx, { kind, fromId, intoId, personId: actor.personId }, now()),
        );
        return `${path}/${intoId}`;
      });
    },
  });
}

function undoForm(app: App, { db, now }: Context, { kind, path, word }: Subject): void {
  app.post(`${path}/:id/merge-undo`, {
    schema: { operationId: `undo${word}MergeForm`, hide: true, params: IdParams, body: UndoForm },
    handler: async (request, reply) => {
      const page = `${path}/${request.params.id}`;
      return orRefusal(request, reply, page, async () => {
        const actor = signedIn(request);
        await inFirmAs(db, actor, (tx) =>
          undoMerge(tx, request.body.mergeId, { kind, personId: actor.personId }, now()),
        );
        return page;
      });
    },
  });
}
