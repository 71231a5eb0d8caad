// Before it closes, the service answers what has reached it. A connection whose request was sent
// but not read yet looks idle and would be cut, so closing waits until nothing has come for a
// moment; meanwhile it says that it is not ready, and each reply ends its connection.
import { setTimeout as pause } from "node:timers/promises";
import type { FastifyInstance } from "fastify";

const LOOK_MS = 25;
const QUIET_LOOKS = 8;
const DRAIN_MOST_MS = 10_000;

declare module "fastify" {
  interface FastifyInstance {
    isDraining(): boolean;
    /** Resolves when nothing has been under way for a moment, or after ten seconds. */
    drain(): Promise<void>;
  }
}

export function prepareDrain(app: FastifyInstance): void {
  let isDraining = false;
  let underWay = 0;
  let begun = 0;
  app.addHook("onRequest", async (_request, reply) => {
    underWay += 1;
    begun += 1;
    reply.raw.once("close", () => {
      underWay -= 1;
    });
  });
  app.addHook("onSend", async (_request, reply) => {
    if (isDraining) reply.header("connection", "close");
  });
  app.decorate("isDraining", () => isDraining);
  app.decorate("drain", async () => {
    isDraining = true;
    let seen = begun;
    const until = performance.now() + DRAIN_MOST_MS;
    for (let quiet = 0; quiet < QUIET_LOOKS && performance.now() < until; quiet += 1) {
      await pause(LOOK_MS);
      if (underWay > 0 || begun !== seen) quiet = -1;
      seen = begun;
    }
  });
}
