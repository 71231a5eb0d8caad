import { z } from "zod";
import { PROBLEMS, Problem, type ProblemCode } from "../errors.ts";
import type { Feature } from "./feature.ts";
import { CHECKS, reasonsNotReady } from "./readiness.ts";
import { problems } from "./responses.ts";

const Health = z.object({ status: z.literal("ok") });
const TAGS = ["Service"];

export const healthRoutes: Feature = async (app, { db, config, queue }) => {
  app.get("/health/live", {
    schema: {
      operationId: "alive",
      summary: "Whether the process answers",
      tags: TAGS,
      security: [],
      querystring: z.strictObject({}),
      response: { 200: Health.describe("It is well"), ...problems(422, 503) },
    },
    handler: async () => ({ status: "ok" as const }),
  });

  app.get("/health/ready", {
    schema: {
      operationId: "ready",
      summary: "Whether the service can do its work",
      description: `If not, each entry of \`reasons\` has a \`check\` (${CHECKS.join(", ")}) and a sentence.`,
      tags: TAGS,
      security: [],
      querystring: z.strictObject({}),
      response: { 200: Health.describe("It is well"), ...problems(422, 503) },
    },
    handler: async () => {
      const { pool } = db;
      const reasons = await reasonsNotReady({
        ...{ isDraining: app.isDraining, pool, dataFolder: config.dataFolder, queue },
      });
      if (reasons.length === 0) return { status: "ok" as const };
      const detail = reasons.map((reason) => reason.detail).join(" ");
      throw new Problem("busy", detail, { reasons, retryAfterS: 5 });
    },
  });

  app.get("/problems/:code", {
    schema: {
      operationId: "explainProblem",
      summary: "What a problem type means and the way out",
      tags: TAGS,
      security: [],
      params: z.object({ code: z.string().max(60) }),
      response: {
        200: z.object({
          code: z.string(),
          status: z.number().int(),
          title: z.string(),
          wayOut: z.string(),
        }),
        ...problems(404),
      },
    },
    handler: async (request) => {
      const { code } = request.params;
      if (!Object.hasOwn(PROBLEMS, code)) {
        throw new Problem("not-found", `There is no problem type ${code}.`);
      }
      return { code, ...PROBLEMS[code as ProblemCode] };
    },
  });
};
