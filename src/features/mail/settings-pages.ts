import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { senderAddress } from "./compose.ts";
import { MailSettingsEdit } from "./schemas.ts";
import { columnsOf } from "./settings-routes.ts";
import { editMailSettings, type MailSettings, readMailSettings } from "./settings-store.ts";

const FormFields = z.record(z.string().max(40), z.string().max(400));
const { quietHours: _quietHours, ...plain } = MailSettingsEdit.shape;
const tick = z.stringbool().default(false);
const hour = z.coerce.number().int().min(0).max(23);

/** A form posts texts, and of boxes only the ticked ones; what it leaves empty is none. */
const Form = z.strictObject({
  ...plain,
  senderName: plain.senderName.unwrap().default(null),
  replyTo: plain.replyTo.unwrap().default(null),
  confirmation: tick,
  change: tick,
  cancellation: tick,
  reminder: tick,
  reminderHour: hour,
  holdBackMinutes: z.coerce.number().int().min(0).max(120),
  quietFrom: z.string().max(5).optional(),
  quietTo: z.string().max(5).optional(),
  version: z.coerce.number().int(),
});

const HOURS = Array.from({ length: 24 }, (_, at) => ({
  value: String(at),
  text: `${String(at).padStart(2, "0")}:00`,
}));

export const mailSettingsPages: Feature = async (app, { db, config }) => {
  const show = async (
    request: FastifyRequest,
    reply: FastifyReply,
    shown: { typed?: FormBody; problems?: FieldProblems; saved?: boolean } = {},
  ) => {
    const { settings, timeZone } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      settings: await readMailSettings(tx),
      timeZone: (await readFirm(tx)).timeZone,
    }));
    return sendPage(request, reply, "outbox-settings", {
      title: say(request.language, "outbox.settings.title"),
      typed: typedOf(settings),
      ...shown,
      hours: HOURS,
      timeZone,
      senderAddress: senderAddress(config),
    });
  };

  app.get("/outbox/settings", {
    schema: {
      operationId: "mailSettingsPage",
      hide: true,
      querystring: z.object({ saved: z.string().optional() }),
    },
    handler: async (request, reply) =>
      show(request, reply, { saved: request.query.saved !== undefined }),
  });

  app.post("/outbox/settings", {
    schema: { operationId: "mailSettingsForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const refuse = (problems: FieldProblems) =>
        show(request, reply.code(422), { typed, problems });
      const read = readForm(Form, typed);
      if (!read.ok) return refuse(read.problems);
      const { version, quietFrom: from, quietTo: to, ...others } = read.value;
      const quiet = MailSettingsEdit.shape.quietHours.safeParse(from || to ? { from, to } : null);
      if (!quiet.success) return refuse(quietProblems(quiet.error));
      const change = columnsOf({ ...others, quietHours: quiet.data });
      try {
        await inFirm(db, signedIn(request).firmId, async (tx) => {
          if (!(await editMailSettings(tx, version, change))) throw editedMeanwhile();
        });
      } catch (error) {
        return refuse(refusedFields(error));
      }
      return reply.redirect("/outbox/settings?saved=1", 303);
    },
  });
};

/** The hours are one thing to the interface and two fields to the form. */
function quietProblems({ issues }: z.ZodError): FieldProblems {
  const named = issues.map(({ path, message }) => [
    path[0] === "from" ? "quietFrom" : "quietTo",
    message,
  ]);
  return Object.fromEntries(named);
}

function typedOf(settings: MailSettings): FormBody {
  const given = Object.entries(settings).filter(([, value]) => value !== null && value !== false);
  return Object.fromEntries(given.map(([name, value]) => [name, String(value)]));
}
