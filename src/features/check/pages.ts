// Where the printed square of a paper leads: what its number is, how anybody checks it without us,
// and a place to check an evidence bag at once, in the browser. Nothing is looked up and nothing is
// sent, so nothing can be learnt by asking.
import { z } from "zod";
import { Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { sendBundled } from "../../web/send-bundled.ts";
import { checkWorker } from "./bundle.ts";
import { checkTexts } from "./texts.ts";

const Query = z.object({
  head: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional()
    .catch(undefined),
});

/** The program that reads the bag could send it nowhere, even if it wanted to. */
const WORKER_POLICY = "default-src 'none'; script-src 'self'";

export const checkPages: Feature = async (app) => {
  app.addHook("onListen", async () => {
    checkWorker().catch((error: unknown) => app.log.error({ err: error }, "bundle of /check"));
  });

  app.get("/check", {
    schema: { operationId: "checkPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      reply.header("x-robots-tag", "noindex");
      const { language } = request;
      return sendPage(request, reply, "check", {
        title: say(language, "check.title"),
        ...{ head: request.query.head, scripts: ["check"], styles: ["check"] },
        worker: (await checkWorker()).path,
        texts: JSON.stringify(checkTexts(language)),
      });
    },
  });

  app.get("/check/program/:name", {
    schema: {
      operationId: "checkProgram",
      hide: true,
      params: z.object({ name: z.string().max(100) }),
    },
    handler: async (request, reply) => {
      const worker = await checkWorker();
      if (worker.path !== `/check/program/${request.params.name}`) {
        throw new Problem("not-found", "There is no such program. Load the page again.");
      }
      return sendBundled(request, reply, worker, WORKER_POLICY);
    },
  });
};
