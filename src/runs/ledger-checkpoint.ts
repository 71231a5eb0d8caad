// Once a day by the firm's own calendar: a hash over all heads of its ledgers. The day is unique
// and the chain is guarded by the database, so however many instances run, a day has one
// checkpoint.
import type { FastifyBaseLogger } from "fastify";
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { localDay } from "../domain/dates/zone-time.ts";
import { makeFirmCheckpoint } from "../features/ledger/make-checkpoint.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";
import type { Run } from "./queue.ts";

/** Makes today's checkpoint of every firm that has none; returns how many. */
export async function makeCheckpoints(
  db: Database,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<number> {
  let made = 0;
  await eachFirm(db, onFailure, async ({ id, timeZone }) => {
    const day = localDay(now.toISOString(), timeZone);
    if (await inFirm(db, id, (tx) => makeFirmCheckpoint(tx, day, now))) made += 1;
  });
  return made;
}

export const checkpointRun = (
  db: Database,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "ledger-checkpoint",
  cron: "11 * * * *",
  work: async () => {
    const made = await makeCheckpoints(db, new Date(), onFailure);
    if (made > 0) logger.info({ made }, "ledger checkpoints");
  },
});
