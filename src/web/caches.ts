// What leaves here is a firm's own: nothing of it stays in a cache unless its route says otherwise.
import type { FastifyInstance, FastifyReply } from "fastify";

export function keepOutOfCaches(app: FastifyInstance): void {
  app.addHook("onRequest", async (_request, reply) => {
    reply.header("cache-control", "no-store");
  });
}

/** Photos and papers that the browser kept go with the session; a tablet's unsent work stays. */
export const emptyBrowserCache = (reply: FastifyReply): FastifyReply =>
  reply.header("clear-site-data", '"cache"');
