import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Fact } from "../../domain/closeout/gate.ts";
import { subjectsOf } from "../../domain/plan/subjects.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams, longText } from "../../web/fields.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { grantConcession } from "../concessions/grant-concession.ts";
import { toContext } from "../job-record/context.ts";
import { doubtsOf } from "../job-record/doubts.ts";
import { tabletNotes } from "../tablet/job-notes.ts";
import { closeOutJob, reopen } from "./close-job.ts";
import { type EvaluatedJob, evaluateJob } from "./evaluate.ts";
import { lastCloseOut, readJob } from "./store.ts";

const ConcessionForm = z.object({
  itemId: z.string().max(48),
  subject: z.string().max(64).default(""),
  reason: longText(2000),
});
const ReasonForm = z.object({ reason: longText(2000) });

export const jobPages: Feature = async (app, { db, now }) => {
  app.get("/jobs/:id", {
    schema: { operationId: "jobPage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { roles, firmId } = signedIn(request);
      const { id } = request.params;
      const page = await inFirm(db, firmId, async (tx) => {
        const evaluated = await evaluateJob(tx, id, now(), { lock: false });
        const job = evaluated && (await readJob(tx, id));
        if (!evaluated || !job) throw notFound("job");
        const closeOut =
          evaluated.record.job.state === "closed" ? await lastCloseOut(tx, id) : null;
        return { evaluated, job, closeOut, tablet: await tabletNotes(tx, id) };
      });
      const { job, evaluated, closeOut } = page;
      return sendPage(request, reply, "job", {
        title: `${job.reference} ${job.title}`,
        job,
        address: `${job.site.addressLine}, ${job.site.locality} ${job.site.postcode}`,
        blockers: evaluated.result.blockers,
        stages: stagesOf(evaluated, closeOut?.facts as Fact[] | undefined),
        isOpen: job.state === "open",
        closeOut: closeOut && { head: closeOut.ledgerSha256, at: closeOut.closedAt.toISOString() },
        ...page.tablet,
        isManager: roles.includes("manager"),
        mayDecide: roles.some((role) => ["office", "manager"].includes(role)),
        mayClose: roles.some((role) => ["installer", "office", "manager"].includes(role)),
      });
    },
  });

  app.post("/jobs/:id/close-out", {
    schema: { operationId: "closeOutForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id } = request.params;
      // What stands in the way is on the page that the redirect shows.
      await inFirm(db, firmId, (tx) => closeOutJob(tx, id, personId, now()));
      return reply.redirect(`/jobs/${id}`, 303);
    },
  });

  app.post("/jobs/:id/concessions", {
    schema: { operationId: "concessionForm", hide: true, params: IdParams, body: ConcessionForm },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id } = request.params;
      const grant = { jobId: id, grantedById: personId, expiresOn: undefined, ...request.body };
      await inFirm(db, firmId, (tx) => grantConcession(tx, grant, now()));
      return reply.redirect(`/jobs/${id}`, 303);
    },
  });

  app.post("/jobs/:id/reopening", {
    schema: { operationId: "reopeningForm", hide: true, params: IdParams, body: ReasonForm },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id } = request.params;
      await inFirm(db, firmId, (tx) => reopen(tx, id, personId, request.body.reason, now()));
      return reply.redirect(`/jobs/${id}`, 303);
    },
  });
};

const MARKS: Record<string, { tag: string; mark: string; word: string }> = {
  pass: { tag: "good", mark: "✓", word: "met" },
  conceded: { tag: "warn", mark: "◇", word: "conceded" },
  "not-applicable": { tag: "plain", mark: "–", word: "does not apply" },
  missing: { tag: "plain", mark: "○", word: "missing" },
  marginal: { tag: "warn", mark: "▲", word: "near the limit" },
};
const NOT_MET = { tag: "bad", mark: "✕", word: "not met" };

/**
 * Stages with their items, each item with what was found for every subject of it. A closed job
 * shows what it was closed on: what is found of an instrument later does not rewrite it.
 */
function stagesOf({ plan, record, result }: EvaluatedJob, closedOn: Fact[] | undefined) {
  const context = toContext(record, new Date(0));
  const doubts = doubtsOf(record);
  const facts = Map.groupBy(closedOn ?? result.facts, (fact) => fact.itemId);
  return plan.plan.stages.map((stage) => ({
    title: stage.title,
    items: stage.items.map((item) => {
      const labels = new Map(subjectsOf(item, context).map(({ key, label }) => [key, label]));
      return {
        title: item.title,
        holdPoint: plan.byId.get(item.id)?.holdPoint,
        safetyCritical: item.safetyCritical,
        cautions: item.cautions,
        found: (facts.get(item.id) ?? []).map((fact) => ({
          ...found(fact, labels.get(fact.subject)),
          doubt: doubtOfFact(fact, doubts),
        })),
      };
    }),
  }));
}

function doubtOfFact({ answerId, outcome }: Fact, doubts: ReadonlyMap<string, string>) {
  return answerId === undefined || outcome === "stale-instrument"
    ? undefined
    : doubts.get(answerId);
}

function found(fact: Fact, label: string | undefined) {
  const mark = MARKS[fact.outcome] ?? NOT_MET;
  return { ...mark, label, sentence: fact.sentence };
}
