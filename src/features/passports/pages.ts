import type { FastifyReply, FastifyRequest } from "fastify";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { PASSPORT_FIELD_NAMES, PASSPORT_FIELDS } from "../../domain/passport/fields.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import { findUnit } from "../units/store.ts";
import { keepPassport, readPassport } from "./keep-passport.ts";
import { readPassportForm, typedPassport } from "./passport-form.ts";
import { passportView } from "./view.ts";

const PATH = "/units/:id/battery-passport";

interface Shown {
  id: string;
  typed?: FormBody;
  problems?: FieldProblems;
}

export const batteryPassportPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { language } = request;
    const { id, typed, problems } = shown;
    const { firmId, roles } = signedIn(request);
    const page = await inFirm(db, firmId, async (tx) => {
      const unit = await findUnit(tx, id);
      if (!unit) throw notFound("unit");
      const passport = await readPassport(tx, id);
      return { unit, passport, today: await todayOfFirm(tx, now()) };
    });
    const filled = typed ?? typedPassport(page.passport, page.today);
    return sendPage(request, reply, "battery-passport", {
      title: say(language, "passport.of", { serial: page.unit.serial }),
      ...{ unit: page.unit, today: page.today, typed: filled, problems },
      passport: passportView(page.passport, language),
      fields: PASSPORT_FIELD_NAMES.map((name) => {
        const { unit, point }: { unit?: string; point: string } = PASSPORT_FIELDS[name];
        const word = say(language, `passport.field.${name}`);
        return {
          ...{ name, value: filled[name], problem: problems?.[name], hint: point },
          label: unit ? `${word}, ${unit}` : word,
          mode: unit ? "decimal" : undefined,
        };
      }),
      mayKeep: roles.some((role) => role !== "auditor"),
      styles: ["registry"],
    });
  };

  app.get(PATH, {
    schema: { operationId: "batteryPassportPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, { id: request.params.id }),
  });

  app.post(PATH, {
    schema: {
      operationId: "batteryPassportForm",
      ...{ hide: true, params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { id, typed, problems });
      const session = signedIn(request);
      const before = await inFirm(db, session.firmId, (tx) => readPassport(tx, id));
      const read = readPassportForm(typed, before);
      if (!read.ok) return again(read.problems);
      const { version, edit } = read.value;
      const by = { personId: session.personId, now: now() };
      try {
        await inFirmAs(db, session, (tx) => keepPassport(tx, id, version, edit, by));
        return reply.redirect(`/units/${id}#passport`, 303);
      } catch (error) {
        const { values, ...problems } = refusedFields(error);
        return again(values ? { ...problems, readOn: values } : problems);
      }
    },
  });
};
