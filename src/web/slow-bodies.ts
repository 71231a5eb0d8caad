// A body that trickles in holds a connection: it is given two minutes, or longer where a route
// takes large files over bad lines and says so with `config: { slowUpload: true }`.
import type { FastifyInstance, FastifyRequest } from "fastify";

declare module "fastify" {
  interface FastifyContextConfig {
    slowUpload?: boolean;
  }
}

export const BODY_WITHIN_MS = 120_000;
/** Of a request as a whole, for uploads too: 200 MB at 2 Mbit/s. */
export const UPLOAD_WITHIN_MS = 15 * 60_000;

export function endSlowBodies(app: FastifyInstance, withinMs = BODY_WITHIN_MS): void {
  const timers = new WeakMap<FastifyRequest, ReturnType<typeof setTimeout>>();
  const stop = (request: FastifyRequest): void => clearTimeout(timers.get(request));
  app.addHook("onRequest", async (request) => {
    if (request.routeOptions.config.slowUpload || request.raw.readableEnded) return;
    const timer = setTimeout(() => request.raw.destroy(), withinMs);
    timers.set(request, timer.unref());
  });
  app.addHook("preValidation", async (request) => stop(request));
  app.addHook("onRequestAbort", async (request) => stop(request));
  app.addHook("onResponse", async (request) => stop(request));
}
