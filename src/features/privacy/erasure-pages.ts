import type { FastifyReply, FastifyRequest } from "fastify";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FormBody, readForm, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { findCustomer } from "../customers/store.ts";
import { readFirm } from "../firms/store.ts";
import { erase } from "./erase.ts";
import { countInstalled, countOldEntries, readPersonalData } from "./personal-data-store.ts";
import { NewErasure } from "./schemas.ts";
import { shownErasure } from "./shown.ts";
import { findErasure } from "./store.ts";

export const erasurePages: Feature = async (app, { db, config, now }) => {
  app.get("/customers/:id/erasure", {
    schema: { operationId: "erasurePage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, request.params.id, {}),
  });

  app.post("/customers/:id/erasure", {
    schema: {
      ...{ operationId: "eraseCustomerForm", hide: true },
      ...{ params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { confirm = "", ...typed } = request.body;
      const refuse = (code: number, problems: Record<string, string>) =>
        show(request, reply.code(code), id, { typed: request.body, problems });
      const read = readForm(NewErasure, typed);
      if (!read.ok) return refuse(422, read.problems);
      const { firmId } = signedIn(request);
      const customer = await inFirm(db, firmId, (tx) => findCustomer(tx, id));
      if (!customer) throw notFound("customer");
      const { reference } = customer;
      // What cannot be undone is not done by one slip of a finger.
      if (confirm.trim().toUpperCase() !== reference) {
        const problem = say(request.language, "privacy.confirmProblem", { reference });
        return refuse(422, { confirm: problem });
      }
      try {
        const desk = { db, dataFolder: config.dataFolder, now: now() };
        await erase(desk, signedIn(request), { customerId: id, ...read.value });
      } catch (error) {
        return refuse(409, refusedFields(error));
      }
      return reply.redirect(`/customers/${id}/erasure`, 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    form: { typed?: FormBody; problems?: Record<string, string> },
  ) {
    const { language } = request;
    const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const data = await readPersonalData(tx, id);
      if (!data) throw notFound("customer");
      const erasure = await findErasure(tx, id);
      const { timeZone } = await readFirm(tx);
      const siteIds = data.sites.map((site) => site.id);
      const units = await countInstalled(tx, siteIds);
      const old = await countOldEntries(tx, siteIds);
      return { data, erasure, timeZone, units, old };
    });
    const { data, erasure, timeZone, units, old } = page;
    const drawn = data.signatures.filter(({ value }) => Object.hasOwn(Object(value), "signature"));
    const { reference, archivedAt } = data.customer;
    return sendPage(request, reply, "erasure", {
      title: `${say(language, "privacy.erase")} ${reference}`,
      ...{ customer: data.customer, isArchived: archivedAt !== null, units, ...form },
      counts: { sites: data.sites.length, jobs: data.jobs.length, mails: data.mails.length },
      ...{ documents: data.documents.length, signatures: drawn.length, old },
      erasure: erasure && {
        ...shownErasure(erasure),
        when: dayAndTime(language, erasure.erasedAt, timeZone),
      },
    });
  }
};
