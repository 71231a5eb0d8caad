import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { tabletBundle } from "./bundle.ts";
import type { BundleFile } from "./bundle-file.ts";
import { matchesETag } from "./etag-match.ts";

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

const A_YEAR_S = 31_536_000;

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
      return sendFile(request, reply, file);
    },
  });
};

function sendFile(request: FastifyRequest, reply: FastifyReply, file: BundleFile): FastifyReply {
  const age = file.caching === "immutable" ? `public, max-age=${A_YEAR_S}, immutable` : "no-cache";
  reply
    .header("cache-control", age)
    .header("etag", file.etag)
    .header("vary", "accept-encoding")
    .header("content-security-policy", CONTENT_POLICY);
  if (file.path === "/tablet/sw.js") reply.header("service-worker-allowed", "/tablet/");
  if (matchesETag(request, file.etag)) return reply.code(304).send();
  const packed = acceptsGzip(request) ? file.packed : undefined;
  if (packed) reply.header("content-encoding", "gzip");
  return reply.type(file.mediaType).send(packed ?? file.bytes);
}

const acceptsGzip = (request: FastifyRequest): boolean =>
  /(?:^|,)\s*gzip\s*(?:,|;(?!\s*q=0(?:\.0*)?\s*(?:,|$))|$)/.test(
    String(request.headers["accept-encoding"] ?? ""),
  );
