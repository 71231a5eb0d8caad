import { z } from "zod";
import { RepeatedProblem } from "../../errors.ts";
import type { App } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import type { Desk } from "./desk.ts";
import { CHECKS } from "./readiness.ts";

export function readyRoutes(app: App, desk: Desk): void {
  app.get("/health/ready", {
    config: { ignoresSession: true },
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
      const { reasons } = await desk.readiness();
      if (reasons.length === 0) return { status: "ok" as const };
      const detail = reasons.map((reason) => reason.detail).join(" ");
      throw new RepeatedProblem("busy", detail, { reasons, retryAfterS: 5 });
    },
  });
}
