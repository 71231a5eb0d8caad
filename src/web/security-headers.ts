// What every reply tells a browser: what a page may load and be framed by, and TLS where the
// service's own address has it.
import type { FastifyInstance } from "fastify";
import helmet from "helmet";
import type { Config } from "../config.ts";

/** Made once: none of it differs from request to request. */
export function sendSecurityHeaders(app: FastifyInstance, config: Config): void {
  const secure = helmet({
    contentSecurityPolicy: securityPolicy(config),
    strictTransportSecurity: config.PUBLIC_URL?.startsWith("https:") ?? false,
  });
  app.addHook("onRequest", (request, reply, done) => secure(request.raw, reply.raw, () => done()));
}

/** Pages load nothing from elsewhere but the pictures of a map, where its server is named. */
function securityPolicy({ MAP_TILE_URL }: Config) {
  const pictures = ["'self'", "data:", ...(MAP_TILE_URL ? [new URL(MAP_TILE_URL).origin] : [])];
  return {
    directives: {
      ...{ "upgrade-insecure-requests": null, "img-src": pictures, "base-uri": ["'none'"] },
      ...{ "style-src": ["'self'"], "font-src": ["'self'"], "frame-ancestors": ["'none'"] },
    },
  };
}
