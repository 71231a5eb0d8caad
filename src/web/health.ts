import { z } from "zod";
import { PROBLEMS, Problem, type ProblemCode } from "../errors.ts";
import type { Feature } from "./feature.ts";
import { problems } from "./responses.ts";

const Health = z.object({ status: z.literal("ok") });
const TAGS = ["Service"];

export const healthRoutes: Feature = async (app) => {
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
