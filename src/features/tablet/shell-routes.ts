import { z } from "zod";
import { Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { sendBundled } from "../../web/send-bundled.ts";
import { tabletBundle } from "./bundle.ts";

/** The page decodes barcodes in WebAssembly and shows pictures it has not sent yet. */
const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join("; ");

/** The tablet's page and its parts. Anybody may have them: there is no data in them. */
export const shellRoutes: Feature = async (app) => {
  // Ready before the first person asks; a fault shows in the log and again at that request.
  app.addHook("onListen", async () => {
    tabletBundle().catch((error: unknown) => app.log.error({ err: error }, "tablet bundle"));
  });

  app.get("/tablet", {
    schema: { operationId: "tabletRedirect", hide: true },
    handler: async (_request, reply) => reply.redirect("/tablet/", 308),
  });

  app.get("/tablet/*", {
    schema: {
      operationId: "tabletFile",
      hide: true,
      params: z.object({ "*": z.string().max(200) }),
    },
    handler: async (request, reply) => {
      const { files } = await tabletBundle();
      const file = files.get(`/tablet/${request.params["*"]}`);
      if (!file) throw new Problem("not-found", "There is no such file of the tablet's page.");
      if (file.path === "/tablet/sw.js") reply.header("service-worker-allowed", "/tablet/");
      return sendBundled(request, reply, file, CONTENT_POLICY);
    },
  });
};
