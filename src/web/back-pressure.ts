// Under more load than the database can take, whoever comes is told at once when to come again,
// rather than made to wait until nobody is answered in time. Tablets keep what they have to send.
import type { Database } from "../db/client.ts";
import { Problem } from "../errors.ts";
import type { App } from "./feature.ts";

/** Waiting for each connection there is: some tenths of a second of work. */
const WAITING_MOST = 16;
const RETRY_AFTER_S = 5;
/** What tells an operator how things stand is answered always. */
const ALWAYS = /^\/(?:health\/|metrics|operation|api\/v1\/operation|assets\/)/;

export function refuseOverload(app: App, { pools }: Pick<Database, "pools">): void {
  app.addHook("onRequest", async (request) => {
    if (!isCrowded(pools) || ALWAYS.test(request.url)) return;
    const detail = "More requests are waiting than can be answered soon. Nothing was lost.";
    throw new Problem("busy", detail, { retryAfterS: RETRY_AFTER_S });
  });
}

const isCrowded = (pools: Database["pools"]): boolean =>
  Object.values(pools).some(
    (pool) => pool.waitingCount > WAITING_MOST * (pool.options.max ?? Number.POSITIVE_INFINITY),
  );
