import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { QUALITY_LIMITS } from "../../domain/sampling/single-plan.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import { keepSample } from "./keep-sample.ts";
import { newSeed } from "./routes.ts";
import { sampleJobs } from "./sample-jobs.ts";
import { countSamples, listSamples } from "./sample-store.ts";
import { sampleRow } from "./sample-view.ts";
import { inOrder, SampleQuery } from "./schemas.ts";

const KEPT_SHOWN = 20;
const KEEPERS: readonly string[] = ["owner", "manager", "auditor"];
const Typed = z.record(z.string(), z.string().max(200));
const Asked = SampleQuery.partial({ seed: true }).refine(inOrder, { path: ["to"] });
const Kept = SampleQuery.refine(inOrder, { path: ["to"] });

export const auditPages: Feature = async (app, { db, now }) => {
  app.get("/audits", {
    schema: { operationId: "auditsPage", hide: true, querystring: Typed },
    handler: async (request, reply) => {
      const { cursor: _cursor, ...typed } = request.query;
      if (typed.from === undefined) {
        const { firmId } = signedIn(request);
        const to = await inFirm(db, firmId, (tx) => todayOfFirm(tx, now()));
        return show(request, reply, { from: `${to.slice(0, 4)}-01-01`, to, limit: "2.5" });
      }
      const read = readForm(Asked, typed);
      if (!read.ok) return show(request, reply.code(422), typed, { problems: read.problems });
      const { seed, ...asked } = read.value;
      if (seed !== undefined) return show(request, reply, typed, { drawn: { ...asked, seed } });
      return reply.redirect(`/audits?${addressOf({ ...asked, seed: newSeed() })}`, 303);
    },
  });

  app.post("/audits", {
    schema: { operationId: "keepAuditForm", hide: true, body: Typed },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(Kept, typed);
      if (!read.ok) return show(request, reply.code(422), typed, { problems: read.problems });
      const { firmId, personId } = signedIn(request);
      try {
        const keeper = { personId, now: now() };
        const id = await inFirm(db, firmId, (tx) => keepSample(tx, read.value, keeper));
        return reply.redirect(`/audits/${id}`, 303);
      } catch (error) {
        return show(request, reply.code(422), typed, { problems: refusedFields(error) });
      }
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: FormBody,
    { problems, drawn }: { problems?: FieldProblems; drawn?: z.output<typeof SampleQuery> } = {},
  ) {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const { cursor } = request.query as { cursor?: string };
    const { kept, counts, sample } = await inFirm(db, firmId, async (tx) => {
      const rows = await listSamples(tx, { before: afterId(cursor), most: KEPT_SHOWN + 1 });
      const ids = rows.map(({ id }) => id);
      const found = drawn && (await sampleJobs(tx, drawn));
      return { kept: rows, counts: await countSamples(tx, ids), sample: found };
    });
    const shown = kept.slice(0, KEPT_SHOWN);
    const last = kept.length > KEPT_SHOWN ? shown.at(-1) : undefined;
    return sendPage(request, reply, "audits", {
      title: say(language, "audits.title"),
      limits: QUALITY_LIMITS.map((value) => ({ value: String(value), text: `${value} %` })),
      ...{ typed, problems, sample, seed: drawn?.seed },
      mayKeep: roles.some((role) => KEEPERS.includes(role)),
      ...(drawn && sample ? drawnView(drawn, sample, language) : {}),
      kept: shown.map((row) => sampleRow(row, counts.get(row.id), language)),
      list: listView({
        ...{ path: "/audits", filters: {}, cursor },
        next: last ? Buffer.from(last.id).toString("base64url") : null,
      }),
    });
  }
};

function drawnView(
  drawn: z.output<typeof SampleQuery>,
  sample: Awaited<ReturnType<typeof sampleJobs>>,
  language: FastifyRequest["language"],
) {
  return {
    export: `/api/v1/exports/audit-sample.csv?${addressOf(drawn)}`,
    jobs: sample.jobs?.map((job) => ({
      ...job,
      closed: plainDay(language, job.closedAt.toISOString().slice(0, 10)),
    })),
    chances: sample.chances?.map((row) => ({ ...row, chance: (row.chance * 100).toFixed(1) })),
    reject: sample.plan && sample.plan.accept + 1,
  };
}

const addressOf = ({ limit, seed, ...asked }: z.output<typeof SampleQuery>) =>
  new URLSearchParams({ ...asked, limit: String(limit), seed });
