// Which request something was done for: it stands in the reply, in the log, and beside whatever is
// told of meanwhile.
import { AsyncLocalStorage } from "node:async_hooks";
import type { FastifyInstance } from "fastify";
import { prepareDrain } from "./drain.ts";

const storage = new AsyncLocalStorage<string>();

/** Undefined outside a request. */
export const currentRequest = (): string | undefined => storage.getStore();

export function traceRequests(app: FastifyInstance): void {
  prepareDrain(app);
  app.addHook("onRequest", (request, reply, done) => {
    reply.header("x-request-id", request.id);
    storage.run(request.id, done);
  });
}
