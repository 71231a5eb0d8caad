import { z } from "zod";
import { Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { CHECKS, reasonsNotReady } from "./readiness.ts";

export const readyRoutes: Feature = async (app, { db, config, queue }) => {
  app.get("/health/ready", {
    schema: {
      operationId: "ready",
      summary: "Whether the service can do its work",
      description:
        `If not, each entry of \`reasons\` has a \`check\` (${CHECKS.join(", ")}) ` +
        "and a sentence.",
      tags: ["Service"],
      security: [],
      querystring: z.strictObject({}),
      response: {
        200: z.object({ status: z.literal("ok") }).describe("It is well"),
        ...problems(422, 503),
      },
    },
    handler: async () => {
      const { isDraining } = app;
      const reasons = await reasonsNotReady({
        ...{ isDraining, db, dataFolder: config.dataFolder, queue },
      });
      if (reasons.length === 0) return { status: "ok" as const };
      const detail = reasons.map((reason) => reason.detail).join(" ");
      throw new Problem("busy", detail, { reasons, retryAfterS: 5 });
    },
  });
};
