import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { number } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, readForm, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { listProductModels } from "../product-models/store.ts";
import { RingRule } from "./ring-schemas.ts";
import { listRings, putSitesByRule } from "./ring-store.ts";

const MODELS_MOST = 200;
const RuleForm = RingRule.omit({ alsoFromOtherRings: true, tryOnly: true }).extend({
  percent: z.coerce.number().min(1).max(100).default(100),
  alsoFromOtherRings: z.stringbool().default(false),
  act: z.enum(["try", "place"]).default("try"),
});

interface Shown {
  typed?: Record<string, string>;
  problems?: FieldProblems;
  result?: { matching: number; placed: number; isTried: boolean };
}

export const firmwareRingPages: Feature = async (app, { db }) => {
  app.get("/firmware/rings/:id", {
    schema: { operationId: "firmwareRingPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, request.params.id, {}),
  });

  app.post("/firmware/rings/:id", {
    schema: {
      ...{ operationId: "placeRingSitesForm", hide: true },
      ...{ params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const typed = request.body;
      const read = readForm(RuleForm, typed);
      if (!read.ok) {
        return show(request, reply.code(422), id, { typed, problems: read.problems });
      }
      const { act, ...rule } = read.value;
      const tryOnly = act === "try";
      const counts = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await listRings(tx)).some((ring) => ring.id === id)) throw notFound("ring");
        return putSitesByRule(tx, id, { ...rule, tryOnly });
      });
      return show(request, reply, id, { typed, result: { ...counts, isTried: tryOnly } });
    },
  });

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, shown: Shown) {
    const { language } = request;
    const { ring, models } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      ring: (await listRings(tx)).find((one) => one.id === id),
      models: await listProductModels(tx, { most: MODELS_MOST }),
    }));
    if (!ring) throw notFound("ring");
    const { result } = shown;
    return sendPage(request, reply, "firmware-ring", {
      title: `${say(language, "releases.ring")} ${ring.name}`,
      ...{ ring, problems: shown.problems, typed: { percent: "100", ...shown.typed } },
      siteCount: number(language, ring.siteCount),
      isTried: result?.isTried,
      result: result && {
        placed: number(language, result.placed),
        matching: number(language, result.matching),
      },
      modelChoices: models.map((model) => ({ value: model.id, text: model.code })),
    });
  }
};
