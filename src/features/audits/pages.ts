import { randomBytes } from "node:crypto";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { QUALITY_LIMITS } from "../../domain/sampling/single-plan.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FormBody, readForm } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { todayOfFirm } from "../firms/today.ts";
import { sampleJobs } from "./sample-jobs.ts";
import { inOrder, SampleQuery } from "./schemas.ts";

const SEED_BYTES = 6;
const Typed = z.record(z.string(), z.string().max(100));
const Asked = SampleQuery.partial({ seed: true }).refine(inOrder, { path: ["to"] });

export const auditPages: Feature = async (app, { db, now }) => {
  app.get("/audits", {
    schema: { operationId: "auditsPage", hide: true, querystring: Typed },
    handler: async (request, reply) => {
      const { language } = request;
      const typed: FormBody = request.query;
      const { firmId } = signedIn(request);
      const page = (data: object) =>
        sendPage(request, reply, "audits", {
          title: say(language, "audits.title"),
          limits: QUALITY_LIMITS.map((value) => ({ value: String(value), text: `${value} %` })),
          ...data,
        });
      if (typed.from === undefined) {
        const to = await inFirm(db, firmId, (tx) => todayOfFirm(tx, now()));
        return page({ typed: { from: `${to.slice(0, 4)}-01-01`, to, limit: "2.5" } });
      }
      const read = readForm(Asked, typed);
      if (!read.ok) {
        reply.code(422);
        return page({ typed, problems: read.problems });
      }
      const { seed, ...asked } = read.value;
      if (seed === undefined) {
        return reply.redirect(`/audits?${addressOf({ ...asked, seed: newSeed() })}`, 303);
      }
      const sample = await inFirm(db, firmId, (tx) => sampleJobs(tx, { ...asked, seed }));
      return page({
        ...{ typed, sample, seed },
        export: `/api/v1/exports/audit-sample.csv?${addressOf({ ...asked, seed })}`,
        jobs: sample.jobs?.map((job) => ({
          ...job,
          closed: plainDay(language, job.closedAt.toISOString().slice(0, 10)),
        })),
        chances: sample.chances?.map((row) => ({ ...row, chance: (row.chance * 100).toFixed(1) })),
        reject: sample.plan && sample.plan.accept + 1,
      });
    },
  });
};

const addressOf = ({ limit, seed, ...asked }: z.output<typeof SampleQuery>) =>
  new URLSearchParams({ ...asked, limit: String(limit), seed });

const newSeed = (): string => randomBytes(SEED_BYTES).toString("hex");
