// A browser adds cookies to whatever another site makes it send. Only a request that comes from our
// own pages may change something on the strength of a cookie; bearer tokens are not sent unasked.
import type { FastifyInstance, FastifyRequest } from "fastify";
import { Problem } from "../errors.ts";

const SAFE = new Set(["GET", "HEAD", "OPTIONS"]);

export function refuseCrossSite(app: FastifyInstance): void {
  app.addHook("onRequest", async (request) => {
    if (SAFE.has(request.method) || request.headers.authorization) return;
    if (!fromOwnPages(request)) {
      throw new Problem("cross-site", "A change must come from Holdpoint's own pages.");
    }
  });
}

function fromOwnPages(request: FastifyRequest): boolean {
  const site = request.headers["sec-fetch-site"];
  if (site !== undefined) return site === "same-origin" || site === "none";
  const origin = request.headers.origin;
  if (origin !== undefined) return URL.canParse(origin) && new URL(origin).host === request.host;
  // Neither header: not a browser. Without a cookie there is nothing to misuse.
  return Object.keys(request.cookies).length === 0;
}
