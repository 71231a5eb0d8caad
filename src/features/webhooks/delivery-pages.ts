import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayBounds } from "../../domain/dates/zone-time.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams, plainDate } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  listOf,
  readForm,
  refusedFields,
} from "../../web/form.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { asked } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { type DeliveryRow, listDeliveries } from "./delivery-store.ts";
import {
  changeEndpoint,
  replaceSecret,
  replay,
  requireEndpoint,
  sendTrial,
} from "./keep-endpoint.ts";
import { kindChoices } from "./kind-choices.ts";
import { DELIVERY_STATES, EndpointEdit } from "./schemas.ts";

const A_PAGE = 25;
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const Query = z.object({
  cursor: z.string().max(200).optional(),
  state: asked(z.enum(DELIVERY_STATES)),
  done: z.string().max(10).optional(),
});
const EditForm = EndpointEdit.required({ url: true, kinds: true, state: true }).extend({
  version: z.coerce.number().int(),
});
const ReplayForm = z
  .object({ deliveryId: z.guid(), since: plainDate(), lastDay: plainDate() })
  .partial()
  .refine(({ since, lastDay }) => !since || !lastDay || since <= lastDay, {
    path: ["lastDay"],
    error: "is before the first",
  });

interface Shown {
  typed?: FormBody;
  problems?: FieldProblems;
  secret?: string;
}

export const webhookDeliveryPages: Feature = async (app, { db, config, now }) => {
  app.get("/webhooks/:id", {
    schema: { operationId: "webhookPage", hide: true, params: IdParams, querystring: Query },
    handler: async (request, reply) => show(request, reply, request.params.id, {}),
  });

  app.post("/webhooks/:id", {
    schema: { operationId: "editWebhookForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const { id } = request.params;
      const typed = request.body;
      const read = readForm(EditForm, {
        ...typed,
        kinds: listOf(typed.kinds),
        state: typed.state ?? "disabled",
      });
      if (!read.ok) return show(request, reply.code(422), id, { typed, problems: read.problems });
      const { version, ...change } = read.value;
      return done(request, reply, id, "kept", (firmId) =>
        inFirm(db, firmId, (tx) => changeEndpoint(tx, id, version, change, config)),
      );
    },
  });

  app.post("/webhooks/:id/secret", {
    schema: { operationId: "webhookSecretForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { dataFolder } = config;
      const { secret } = await inFirm(db, signedIn(request).firmId, (tx) =>
        replaceSecret(tx, id, { dataFolder, now: now() }),
      );
      return show(request, reply.code(201), id, { secret });
    },
  });

  app.post("/webhooks/:id/trial", {
    schema: { operationId: "webhookTrialForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      return done(request, reply, id, "trial", (firmId) =>
        inFirm(db, firmId, (tx) => sendTrial(tx, id, now())),
      );
    },
  });

  app.post("/webhooks/:id/replay", {
    schema: { operationId: "webhookReplayForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const { id } = request.params;
      const typed = request.body;
      const read = readForm(ReplayForm, typed);
      if (!read.ok) return show(request, reply.code(422), id, { typed, problems: read.problems });
      const { deliveryId, since, lastDay } = read.value;
      return done(request, reply, id, "again", (firmId) =>
        inFirm(db, firmId, async (tx) => {
          const { timeZone } = await readFirm(tx);
          const from = since ? new Date(dayBounds(since, timeZone).start) : undefined;
          const until = lastDay ? new Date(dayBounds(lastDay, timeZone).end) : undefined;
          return replay(tx, id, { deliveryId, since: from, until }, now());
        }),
      );
    },
  });

  /** Does it and leads back, or shows the page with why not. */
  async function done(
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    what: "kept" | "trial" | "again",
    work: (firmId: string) => Promise<unknown>,
  ) {
    try {
      await work(signedIn(request).firmId);
    } catch (error) {
      return show(request, reply.code(409), id, { problems: refusedFields(error) });
    }
    return reply.redirect(`/webhooks/${id}?done=${what}`, 303);
  }

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, shown: Shown) {
    const { language } = request;
    const { cursor, state, done: what } = request.query as z.infer<typeof Query>;
    const before = afterId(cursor);
    const { timeZone, endpoint, rows } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      timeZone: (await readFirm(tx)).timeZone,
      endpoint: await requireEndpoint(tx, id),
      rows: await listDeliveries(tx, {
        ...{ endpointId: id, most: A_PAGE + 1 },
        ...{ ...(before ? { before } : {}), ...(state ? { state } : {}) },
      }),
    }));
    const { typed = endpoint } = shown;
    const last = rows.length > A_PAGE ? rows[A_PAGE - 1] : undefined;
    return sendPage(request, reply, "webhook", {
      title: say(language, "webhook.one"),
      ...{ endpoint, typed, problems: shown.problems, secret: shown.secret },
      version: endpoint.version,
      doneText: isDone(what) ? say(language, `webhook.done.${what}`) : undefined,
      isActive: endpoint.state === "active",
      failing: endpoint.failingSince && dayAndTime(language, endpoint.failingSince, timeZone),
      kindChoices: kindChoices(listOf(typed.kinds), language),
      deliveries: rows.slice(0, A_PAGE).map((row) => deliveryRow(row, language, timeZone)),
      list: listView({
        ...{ path: `/webhooks/${id}`, filters: { state }, cursor },
        next: last ? Buffer.from(last.id).toString("base64url") : null,
      }),
      states: DELIVERY_STATES.map((value) => ({
        ...{ value, chosen: value === state, text: say(language, `webhook.state.${value}`) },
      })),
      filtered: state !== undefined,
      exported: exportOf(id, state),
    });
  }
};

const isDone = (what: string | undefined): what is "kept" | "trial" | "again" =>
  what === "kept" || what === "trial" || what === "again";

function deliveryRow(row: DeliveryRow, language: ShownLanguage, timeZone: string) {
  const state = row.state as "waiting" | "delivered" | "failed";
  const time = (at: Date) => dayAndTime(language, at, timeZone);
  return {
    ...{ id: row.id, kind: row.kind, attempts: row.attempts, status: row.lastStatus },
    ...{ error: row.lastError, at: time(row.createdAt), state },
    stateName: say(language, `webhook.state.${state}`),
    next: state === "waiting" && row.attempts > 0 ? time(row.nextAt) : undefined,
    isWaiting: state === "waiting",
  };
}

function exportOf(endpointId: string, state?: string): string {
  const query = new URLSearchParams({ endpointId, ...(state ? { state } : {}) });
  return `/api/v1/exports/webhook-deliveries.csv?${query}`;
}
