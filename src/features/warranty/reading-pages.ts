// A unit's throughput and temperatures, entered and taken back.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { number, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import { findUnit } from "../units/store.ts";
import { dayText, keepReading } from "./keep-warranty.ts";
import { readReadingForm } from "./reading-form.ts";
import { listReadings, type ReadingRow, removeReading } from "./store.ts";
import { unitWarrantyView } from "./unit-view.ts";

const PATH = "/units/:id/warranty/readings";
const READINGS_SHOWN = 50;
const Removal = z.object({ readingId: z.guid() });

interface Shown {
  id: string;
  typed?: FormBody;
  problems?: FieldProblems;
  done?: string;
}

export const warrantyReadingPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { language } = request;
    const { id, typed, problems, done } = shown;
    const { firmId, roles } = signedIn(request);
    const page = await inFirm(db, firmId, async (tx) => {
      const unit = await findUnit(tx, id);
      if (!unit) throw notFound("unit");
      const warranty = await unitWarrantyView(tx, id, { now: now(), language, roles });
      const readings = await listReadings(tx, id, { most: READINGS_SHOWN });
      return { unit, warranty, readings, today: await todayOfFirm(tx, now()) };
    });
    const told = (value: number | null) => (value === null ? "–" : number(language, value));
    const line = (row: ReadingRow) => ({
      ...{ id: row.id, day: plainDay(language, dayText(row.readOn)) },
      ...{ kwh: told(row.throughputKwh), lowest: told(row.temperatureLowest) },
      highest: told(row.temperatureHighest),
    });
    return sendPage(request, reply, "warranty-readings", {
      title: say(language, "reading.of", { serial: page.unit.serial }),
      ...{ unit: page.unit, warranty: page.warranty, today: page.today, problems, done },
      readings: page.readings.map(line),
      typed: typed ?? { readOn: page.today },
      mayEnter: roles.some((role) => role !== "auditor"),
      mayRemove: page.warranty.mayRegister,
      styles: ["registry"],
    });
  };

  app.get(PATH, {
    schema: { operationId: "warrantyReadingsPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, { id: request.params.id }),
  });

  app.post(PATH, {
    schema: {
      operationId: "addWarrantyReadingForm",
      ...{ hide: true, params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { id, typed, problems });
      const read = readReadingForm(typed);
      if (!read.ok) return again(read.problems);
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      try {
        const row = await inFirmAs(db, session, (tx) => keepReading(tx, id, read.value, by));
        return show(request, reply, { id, done: row.id });
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });

  app.post(`${PATH}/removal`, {
    schema: {
      operationId: "removeWarrantyReadingForm",
      ...{ hide: true, params: IdParams, body: Removal },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { readingId } = request.body;
      // Sent a second time, there is nothing left to take back.
      await inFirmAs(db, signedIn(request), (tx) => removeReading(tx, id, readingId));
      return reply.redirect(`/units/${id}/warranty/readings`, 303);
    },
  });
};
