import { z } from "zod";
import { type FirmTransaction, inFirm, inFirmAs } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { readForm, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { signedIn } from "../../web/session.ts";
import { orRefusal } from "../changes/or-refusal.ts";
import { changeThatMade } from "../changes/store.ts";
import { readFirm } from "../firms/store.ts";
import { bodyOf, showForm, typedOf } from "./instrument-form.ts";
import { showInstrument } from "./instrument-view.ts";
import { calibrateInstrument, changeInstrument, takeOnInstrument } from "./keep-instrument.ts";
import { InstrumentEdit, NewCalibration, NewInstrument } from "./schemas.ts";
import { findInstrument } from "./store.ts";

const Query = z.object({ saved: z.guid().optional() });
const Edit = InstrumentEdit.omit({ retiredOn: true })
  .required({ reference: true, name: true, serial: true })
  .extend({ version: z.coerce.number().int() });
const Retire = z.object({ version: z.coerce.number().int(), retired: z.stringbool() });
const Calibrated = NewCalibration.extend({ passed: z.stringbool() });

export const instrumentDetailPages: Feature = async (app, context) => {
  const { db, now } = context;

  app.get("/instruments/new", {
    schema: { operationId: "newInstrumentPage", hide: true },
    handler: async (request, reply) =>
      showForm(request, reply, { typed: { intervalMonths: "12" } }),
  });

  app.post("/instruments", {
    schema: { operationId: "addInstrumentForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(NewInstrument, bodyOf(typed));
      if (!read.ok) return showForm(request, reply.code(422), { typed, problems: read.problems });
      try {
        const id = await inFirmAs(db, signedIn(request), (tx) => takeOnInstrument(tx, read.value));
        return reply.redirect(`/instruments/${id}`, 303);
      } catch (error) {
        return showForm(request, reply.code(422), { typed, problems: refusedFields(error) });
      }
    },
  });

  app.get("/instruments/:id", {
    schema: { operationId: "instrumentPage", hide: true, params: IdParams, querystring: Query },
    handler: async (request, reply) =>
      showInstrument(request, reply, context, {
        ...{ id: request.params.id, saved: request.query.saved, typed: {} },
      }),
  });

  app.get("/instruments/:id/edit", {
    schema: { operationId: "editInstrumentPage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, (tx) => read(tx, id));
      return showForm(request, reply, { id, typed: typedOf(row) });
    },
  });

  app.post("/instruments/:id", {
    schema: {
      operationId: "editInstrumentForm",
      hide: true,
      params: IdParams,
      body: SINGLE_FIELDS,
    },
    handler: async (request, reply) => {
      const { instrumentClass = "", ...typed } = request.body;
      const { id } = request.params;
      const again = (problems: Readonly<Record<string, string>>) =>
        showForm(request, reply.code(422), { id, typed: { ...typed, instrumentClass }, problems });
      const form = readForm(Edit, bodyOf(typed));
      if (!form.ok) return again(form.problems);
      const { version, ...change } = form.value;
      try {
        const saved = await inFirmAs(db, signedIn(request), async (tx) => {
          await changeInstrument(tx, id, version, change);
          return changeThatMade(tx, id, version + 1);
        });
        return reply.redirect(`/instruments/${id}${saved ? `?saved=${saved}` : ""}`, 303);
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });

  app.post("/instruments/:id/retire", {
    schema: { operationId: "retireInstrumentForm", hide: true, params: IdParams, body: Retire },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { version, retired } = request.body;
      return orRefusal(request, reply, `/instruments/${id}`, async () => {
        const saved = await inFirmAs(db, signedIn(request), async (tx) => {
          const { timeZone } = await readFirm(tx);
          const today = localDay(now().toISOString(), timeZone);
          await changeInstrument(tx, id, version, { retiredOn: retired ? today : null });
          return changeThatMade(tx, id, version + 1);
        });
        return `/instruments/${id}${saved ? `?saved=${saved}` : ""}`;
      });
    },
  });

  app.post("/instruments/:id/calibrations", {
    schema: { operationId: "calibrationForm", hide: true, params: IdParams, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: Readonly<Record<string, string>>) =>
        showInstrument(request, reply.code(422), context, { id, typed, problems });
      const form = readForm(Calibrated, typed);
      if (!form.ok) return again(form.problems);
      try {
        const actor = signedIn(request);
        await inFirmAs(db, actor, (tx) =>
          calibrateInstrument(tx, id, form.value, now(), actor.personId),
        );
        return reply.redirect(`/instruments/${id}`, 303);
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });
};

async function read(tx: FirmTransaction, id: string) {
  const row = await findInstrument(tx, id);
  if (!row) throw notFound("instrument");
  return row;
}
