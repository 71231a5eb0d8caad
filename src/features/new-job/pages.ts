import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
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
import { asked } from "../../web/sorted-list.ts";
import { listCrews } from "../crews/store.ts";
import { JOB_KINDS, NewJob } from "../jobs/schemas.ts";
import { openWithVisit } from "./open-with-visit.ts";
import {
  bookableInstruments,
  findSiteChoices,
  publishedPlans,
  readSiteChoice,
  unitChoices,
} from "./store.ts";
import { asksForVisit, readVisit, visitProblems } from "./visit-form.ts";

const CHOICES_MOST = 200;
const SITES_MOST = 20;
const Query = z.object({ q: asked(z.string().trim().max(100)), siteId: asked(z.guid()) });
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));

interface Shown {
  siteId: string;
  typed: FormBody;
  problems?: FieldProblems;
}

/** Usual hours of a visit, to begin with. */
const AT_FIRST = { kind: "install", from: "08:30", to: "16:00" };

export const newJobPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { language } = request;
    const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const site = await readSiteChoice(tx, shown.siteId);
      if (!site) throw notFound("site");
      return {
        site,
        plans: await publishedPlans(tx, CHOICES_MOST),
        units: await unitChoices(tx, shown.siteId, CHOICES_MOST),
        crews: await listCrews(tx, { active: true, most: CHOICES_MOST }),
        instruments: await bookableInstruments(tx, CHOICES_MOST),
      };
    });
    const ticked = (field: string, id: string) => listOf(shown.typed[field]).includes(id);
    return sendPage(request, reply, "job-new", {
      title: say(language, "job.new"),
      ...shown,
      site: data.site,
      kinds: JOB_KINDS.map((value) => ({ value, text: say(language, `job.kind.${value}`) })),
      plans: data.plans.map(({ id, title, code, number }) => ({
        value: id,
        text: say(language, "job.planChoice", { title, code, number }),
      })),
      units: data.units.map((unit) => ({ ...unit, ticked: ticked("units", unit.id) })),
      crews: data.crews.map(({ id, name }) => ({ value: id, text: name })),
      instruments: data.instruments.map((one) => ({
        ...one,
        ticked: ticked("instrumentIds", one.id),
      })),
    });
  };

  app.get("/jobs/new", {
    schema: { operationId: "newJobPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { q, siteId } = request.query;
      if (siteId) return show(request, reply, { siteId, typed: AT_FIRST });
      const sites = await inFirm(db, signedIn(request).firmId, (tx) =>
        findSiteChoices(tx, q, SITES_MOST),
      );
      const title = say(request.language, "job.new");
      return sendPage(request, reply, "job-new-site", { title, sites, q });
    },
  });

  app.post("/jobs/new", {
    schema: { operationId: "newJobForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed: FormBody = request.body;
      const siteId = z.guid().safeParse(typed.siteId);
      if (!siteId.success) return reply.redirect("/jobs/new", 303);
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { siteId: siteId.data, typed, problems });
      const read = readForm(NewJob, jobFields(typed));
      const visit = asksForVisit(typed) ? readVisit(typed) : undefined;
      if (!read.ok || visit?.ok === false) {
        const job: FieldProblems = read.ok ? {} : read.problems;
        const { planVersionId } = job;
        const plan: FieldProblems = planVersionId === undefined ? {} : { planId: planVersionId };
        return again({ ...plan, ...job, ...(visit?.ok === false ? visit.problems : {}) });
      }
      try {
        const session = signedIn(request);
        const id = await openWithVisit(db, session, read.value, visit?.visit, now());
        return reply.redirect(`/jobs/${id}`, 303);
      } catch (error) {
        return again(visitProblems(refusedFields(error)));
      }
    },
  });
};

const jobFields = ({ siteId, kind, title, planId, units }: FormBody) => ({
  ...{ siteId, kind, title, planId },
  units: listOf(units).map((unitId) => ({ unitId })),
});
