import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import {
  type FieldProblems,
  type FormBody,
  listOf,
  readForm,
  refusedFields,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { ENDPOINTS_MOST, takeOnEndpoint } from "./keep-endpoint.ts";
import { kindChoices } from "./kind-choices.ts";
import { NewEndpoint } from "./schemas.ts";
import { listEndpoints } from "./store.ts";

const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));

interface Shown {
  typed?: FormBody;
  problems?: FieldProblems;
  secret?: string;
}

export const webhookPages: Feature = async (app, { db, config }) => {
  app.get("/webhooks", {
    schema: { operationId: "webhooksPage", hide: true },
    handler: async (request, reply) => show(request, reply, {}),
  });

  app.post("/webhooks", {
    schema: { operationId: "addWebhookForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(NewEndpoint, { ...typed, kinds: listOf(typed.kinds) });
      if (!read.ok) return show(request, reply.code(422), { typed, problems: read.problems });
      const { firmId, personId } = signedIn(request);
      try {
        const { secret } = await inFirm(db, firmId, (tx) =>
          takeOnEndpoint(tx, read.value, { personId, config }),
        );
        return show(request, reply.code(201), { secret });
      } catch (error) {
        return show(request, reply.code(422), { typed, problems: refusedFields(error) });
      }
    },
  });

  async function show(request: FastifyRequest, reply: FastifyReply, shown: Shown) {
    const { language } = request;
    const { timeZone, rows } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      timeZone: (await readFirm(tx)).timeZone,
      rows: await listEndpoints(tx),
    }));
    return sendPage(request, reply, "webhooks", {
      title: say(language, "webhook.title"),
      most: ENDPOINTS_MOST,
      ...{ typed: shown.typed ?? {}, problems: shown.problems, secret: shown.secret },
      endpoints: rows.map(({ id, url, kinds, state, failingSince }) => ({
        ...{ id, url, count: kinds.length, isActive: state === "active" },
        failing: failingSince ? dayAndTime(language, failingSince, timeZone) : undefined,
      })),
      kindChoices: kindChoices(listOf(shown.typed?.kinds), language),
    });
  }
};
