// Trying a version on a page: a made-up job whose answers pass, each to be changed, and what the
// verdicts and the gate would say. Nothing is stored.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Sample } from "../../domain/plan/sample.ts";
import { Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { refusedFields, requireForm } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readPlan } from "../plans/keep-plan.ts";
import { VersionParams } from "../plans/schemas.ts";
import { shownSample } from "../plans/shown-sample.ts";
import { PlanTrialRun } from "../plans/trial-schemas.ts";
import { sampleOf, tryDocument } from "../plans/try-plan.ts";
import { typedValue, valueField } from "./trial-values.ts";

const FormFields = z.record(z.string(), z.string().max(2000));
const TrialQuery = z.object({ supply: z.string().max(40).optional() });
/** The made-up day begins at noon, so that the same version gives the same sample all day long. */
const DAY_START_UTC = "T12:00:00.000Z";

export const planTrialPages: Feature = async (app, { db, now }) => {
  app.get("/plans/:id/versions/:number/trial", {
    schema: {
      operationId: "planTrialPage",
      ...{ hide: true, params: VersionParams, querystring: TrialQuery },
    },
    handler: async (request, reply) => show(request, reply, {}),
  });

  app.post("/plans/:id/versions/:number/trial", {
    schema: {
      operationId: "planTrialForm",
      ...{ hide: true, params: VersionParams, querystring: TrialQuery, body: FormFields },
    },
    handler: async (request, reply) => show(request, reply, request.body),
  });

  async function show(request: FastifyRequest, reply: FastifyReply, typed: Record<string, string>) {
    const { id: planId, number } = request.params as z.infer<typeof VersionParams>;
    const { supply } = request.query as z.infer<typeof TrialQuery>;
    const start = new Date(`${now().toISOString().slice(0, 10)}${DAY_START_UTC}`);
    const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const plan = await readPlan(tx, planId);
      const place = { planId, number };
      try {
        const sample = await sampleOf(tx, place, { supply }, start);
        const { context, answers } = shownSample(sample);
        const changed = answers.map((answer, index) => ({
          ...answer,
          value: typedValue(answer.value, typed[`a${index}`], typed.sent === "true"),
        }));
        const run = requireForm(PlanTrialRun, { plan: place, context, answers: changed });
        const tried = await tryDocument(tx, run, start);
        return { plan, sample, answers: changed, tried };
      } catch (error) {
        if (!(error instanceof Problem) || error.code === "not-found") throw error;
        return { plan, refused: Object.values(refusedFields(error))[0] ?? error.message };
      }
    });
    const path = `/plans/${planId}/versions/${number}`;
    const title = say(request.language, "editor.tryTitle", { title: data.plan.title, number });
    const frame = { title, plan: data.plan, number, here: path, supply };
    return sendPage(request, reply, "plan-trial", { ...frame, ...trialData(data) });
  }
};

interface Tried {
  refused?: string;
  sample?: Sample;
  answers?: { itemId: string; subject: string; value: unknown }[];
  tried?: Awaited<ReturnType<typeof tryDocument>>;
}

function trialData({ refused, sample, answers, tried }: Tried) {
  if (refused !== undefined || !tried?.publishable || !answers) return { refused };
  const places = new Map(answers.map((answer, index) => [keyOf(answer), { answer, index }]));
  return {
    gate: tried.gate,
    assumed: Object.entries(sample?.assumed ?? {}).map(([name, value]) => ({ name, value })),
    items: tried.items.map((item) => {
      const found = places.get(keyOf(item));
      return {
        ...item,
        clears: item.verdict.clears,
        sentence: item.verdict.sentence,
        field: found ? valueField(found.answer.value, found.index) : undefined,
      };
    }),
  };
}

const keyOf = ({ itemId, subject }: { itemId: string; subject: string }): string =>
  `${itemId} ${subject}`;
