// Where the printed square of a paper leads: what its number is, and how anybody checks it without
// us. Nothing is looked up, so nothing can be learnt by asking.
import { z } from "zod";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";

const Query = z.object({
  head: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional()
    .catch(undefined),
});

export const checkPages: Feature = async (app) => {
  app.get("/check", {
    schema: { operationId: "checkPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      reply.header("x-robots-tag", "noindex");
      const title = say(request.language, "check.title");
      return sendPage(request, reply, "check", { title, head: request.query.head });
    },
  });
};
