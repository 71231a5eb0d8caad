import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams, plainDate } from "../../web/fields.ts";
import { type FieldProblems, readForm, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { orRefusal } from "../changes/or-refusal.ts";
import { todayOfFirm } from "../firms/today.ts";
import {
  changeQualification,
  readQualification,
  recordQualification,
  restoreQualification,
} from "./keep-qualification.ts";
import { NewQualification, QualificationEdit } from "./schemas.ts";
import { RegisterQuery, showRegister } from "./show-register.ts";
import { shown } from "./shown.ts";
import { findQualification, removeQualification } from "./store.ts";

const EditFields = z.object({ version: z.coerce.number().int() }).catchall(z.string().max(200));
/** An empty field of a form says that there is none. */
const orNull = (text: string | undefined): string | null => text?.trim() || null;
const optional = (most: number) =>
  z
    .string()
    .max(most)
    .transform((text) => text || null);
const Removed = z.object({
  ...{ id: z.guid(), personId: z.guid(), kindId: z.guid(), validFrom: plainDate() },
  validTo: z.union([z.literal("").transform(() => null), plainDate()]),
  ...{ number: optional(80), issuedBy: optional(160) },
});

export const qualificationPages: Feature = async (app, context) => {
  const { db, now } = context;

  app.get("/qualifications", {
    schema: { operationId: "qualificationsPage", hide: true, querystring: RegisterQuery },
    handler: async (request, reply) => {
      const { query } = request;
      const { personId = "", kindId = "" } = query;
      return showRegister(context, request, reply, { query, typed: { personId, kindId } });
    },
  });

  app.post("/qualifications", {
    schema: { operationId: "recordQualificationForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const again = (problems: FieldProblems) =>
        showRegister(context, request, reply.code(422), { query: {}, typed, problems });
      const read = readForm(NewQualification, typed);
      if (!read.ok) return again(read.problems);
      try {
        await inFirmAs(db, signedIn(request), (tx) => recordQualification(tx, read.value));
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect("/qualifications", 303);
    },
  });

  app.post("/qualifications/restoration", {
    schema: { operationId: "restoreQualificationForm", hide: true, body: Removed },
    handler: async (request, reply) =>
      orRefusal(request, reply, "/qualifications", async () => {
        await inFirmAs(db, signedIn(request), (tx) => restoreQualification(tx, request.body));
        return "/qualifications";
      }),
  });

  const showOne = async (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    failed?: { typed: Readonly<Record<string, string>>; problems: FieldProblems },
  ) => {
    const row = await inFirm(db, signedIn(request).firmId, async (tx) =>
      shown(await readQualification(tx, id), await todayOfFirm(tx, now())),
    );
    const { validFrom, validTo, number, issuedBy, version } = row;
    const kept = { validFrom, validTo: validTo ?? "", number: number ?? "" };
    return sendPage(request, reply, "qualification", {
      title: say(request.language, "qualifications.of", {
        ...{ name: row.person.name, kind: row.kind.name },
      }),
      row,
      typed: { ...kept, issuedBy: issuedBy ?? "", version: String(version) },
      ...failed,
    });
  };

  app.get("/qualifications/:id", {
    schema: { operationId: "qualificationPage", hide: true, params: IdParams },
    handler: async (request, reply) => showOne(request, reply, request.params.id),
  });

  app.post("/qualifications/:id", {
    schema: {
      operationId: "editQualificationForm",
      hide: true,
      params: IdParams,
      body: EditFields,
    },
    handler: async (request, reply) => {
      const { version, ...fields } = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        showOne(request, reply.code(422), id, {
          ...{ typed: { ...fields, version: String(version) }, problems },
        });
      const [validTo, number, issuedBy] = [fields.validTo, fields.number, fields.issuedBy].map(
        orNull,
      );
      const read = readForm(QualificationEdit, { ...fields, validTo, number, issuedBy });
      if (!read.ok) return again(read.problems);
      try {
        await inFirmAs(db, signedIn(request), (tx) =>
          changeQualification(tx, id, version, read.value),
        );
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect("/qualifications", 303);
    },
  });

  app.post("/qualifications/:id/removal", {
    schema: { operationId: "removeQualificationForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const removed = await inFirmAs(db, signedIn(request), async (tx) => {
        const row = await findQualification(tx, id);
        if (row) await removeQualification(tx, id);
        return row && shown(row, await todayOfFirm(tx, now()));
      });
      // Sent a second time, there is nothing left to take back.
      if (!removed) return reply.redirect("/qualifications", 303);
      return showRegister(context, request, reply, { query: {}, typed: {}, removed });
    },
  });
};
