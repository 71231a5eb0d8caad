// The warranty of one unit: how it stands, and what is entered for it.
import type { FastifyReply, FastifyRequest } from "fastify";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  SINGLE_FIELDS,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import { findUnit } from "../units/store.ts";
import { keepRegistration, takeRegistrationBack } from "./keep-warranty.ts";
import { NewRegistration, type UnitWarranty } from "./schemas.ts";
import { unitClaims } from "./unit-claims.ts";
import { oneWarranty, unitWarrantyView } from "./unit-view.ts";

/** A change just made, with the registration it replaced; that can be put back. */
interface Done {
  what: "registered" | "removed";
  before: UnitWarranty["registration"];
}

interface Shown {
  id: string;
  done?: Done | undefined;
  typed?: FormBody;
  problems?: FieldProblems;
}

export const unitWarrantyPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const { id, done, typed, problems } = shown;
    const page = await inFirm(db, firmId, async (tx) => {
      const unit = await findUnit(tx, id);
      if (!unit) throw notFound("unit");
      const today = await todayOfFirm(tx, now());
      const warranty = await unitWarrantyView(tx, id, { now: now(), language, roles });
      return { unit, today, warranty, claims: await unitClaims(tx, id, language) };
    });
    return sendPage(request, reply, "unit-warranty", {
      title: say(language, "warranty.ofUnit", { serial: page.unit.serial }),
      ...{ ...page, done, problems, styles: ["registry"] },
      seesClaims: roles.some((role) => role !== "installer"),
      typed: typed ?? page.warranty.registered ?? { registeredOn: page.today },
    });
  };

  app.get("/units/:id/warranty", {
    schema: { operationId: "unitWarrantyPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, { id: request.params.id }),
  });

  app.post("/units/:id/warranty/registration", {
    schema: {
      operationId: "warrantyRegistrationForm",
      ...{ hide: true, params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { id, typed, problems });
      const read = readForm(NewRegistration, typed);
      if (!read.ok) return again(read.problems);
      const session = signedIn(request);
      try {
        const before = await inFirmAs(db, session, async (tx) => {
          const { registration } = await oneWarranty(tx, id, now());
          await keepRegistration(tx, id, read.value, { personId: session.personId, now: now() });
          return registration;
        });
        return show(request, reply, { id, done: { what: "registered", before } });
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });

  app.post("/units/:id/warranty/registration/removal", {
    schema: { operationId: "removeWarrantyRegistrationForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const session = signedIn(request);
      const before = await inFirmAs(db, session, async (tx) => {
        const { registration } = await oneWarranty(tx, id, now());
        // Sent a second time, there is nothing left to take back.
        if (!registration) return null;
        await takeRegistrationBack(tx, id, { personId: session.personId, now: now() });
        return registration;
      });
      const done = before ? { what: "removed" as const, before } : undefined;
      return show(request, reply, { id, done });
    },
  });
};
