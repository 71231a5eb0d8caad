import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { LANGUAGE_NAMES, LANGUAGES } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import {
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  SINGLE_FIELDS,
} from "../../web/form.ts";
import { filledForm, withFormFiles } from "../../web/form-files.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { editFirmFacts, readFirmFacts, writeMark } from "./branding-store.ts";
import { markFrom } from "./keep-mark.ts";
import { FirmEdit, MARK_BYTES_MOST } from "./schemas.ts";

const Query = z.object({ saved: z.string().max(1).optional() });
const TEXTS = ["address", "phone", "email", "website", "registrations"] as const;
const ZONES = Intl.supportedValuesOf("timeZone").map((zone) => ({ value: zone, text: zone }));

export const firmPages: Feature = async (app, { db }) => {
  app.get("/firm", {
    schema: { operationId: "firmPage", hide: true, querystring: Query },
    handler: async (request, reply) => show(request, reply, {}),
  });

  app.post("/firm", {
    schema: { operationId: "editFirmForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const { version, latitude, longitude, colour = "", ...rest } = typed;
      const base = latitude || longitude ? { latitude, longitude } : null;
      const read = readForm(FirmEdit, {
        ...rest,
        colour: colour.toLowerCase(),
        base: degrees(base),
      });
      if (!read.ok) return show(request, reply.code(422), { typed, problems: read.problems });
      // A form's empty text is one that was taken out.
      const texts = Object.fromEntries(TEXTS.map((name) => [name, read.value[name] ?? ""]));
      try {
        await inFirm(db, signedIn(request).firmId, async (tx) => {
          const edit = { ...read.value, ...texts };
          if (!(await editFirmFacts(tx, Number(version), edit))) throw editedMeanwhile();
        });
      } catch (error) {
        return show(request, reply.code(409), { typed, problems: refusedFields(error) });
      }
      return reply.redirect("/firm?saved=1", 303);
    },
  });

  await withFormFiles(app, MARK_BYTES_MOST, (within, bodyLimit) => {
    within.post("/firm/mark", {
      bodyLimit,
      schema: { operationId: "firmMarkForm", hide: true },
      handler: async (request, reply) => {
        const { fields, files } = await filledForm(request);
        const file = files[0]?.bytes ?? Buffer.alloc(0);
        try {
          const mark = fields.act === "remove" ? null : await markFrom(file);
          await inFirm(db, signedIn(request).firmId, (tx) => writeMark(tx, mark));
        } catch (error) {
          return show(request, reply.code(422), { problems: refusedFields(error) });
        }
        return reply.redirect("/firm?saved=1#mark", 303);
      },
    });
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    { typed, problems }: { typed?: FormBody; problems?: FieldProblems },
  ) {
    const { language } = request;
    const firm = await inFirm(db, signedIn(request).firmId, readFirmFacts);
    const { base, ...facts } = firm;
    return sendPage(request, reply, "firm", {
      title: say(language, "firm.title"),
      ...{ firm, problems },
      typed: { ...facts, ...base, ...typed },
      saved: (request.query as z.infer<typeof Query>).saved !== undefined,
      zones: ZONES,
      units: ["metric", "us"].map((value) => ({
        value,
        text: say(language, `firm.units.${value as "us"}`),
      })),
      languages: LANGUAGES.map((value) => ({ value, text: LANGUAGE_NAMES[value] })),
    });
  }
};

/** Degrees as a form posts them: text, which may have a decimal comma. */
function degrees(base: { latitude?: string; longitude?: string } | null) {
  const number = (text = "") => Number(text.replace(",", ".") || Number.NaN);
  return base && { latitude: number(base.latitude), longitude: number(base.longitude) };
}
