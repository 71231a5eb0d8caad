// Signatures that left without a time stamp, because the service did not answer, get theirs later:
// the next export of the same record has it.
import type { FastifyBaseLogger } from "fastify";
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { timeStampService } from "../features/evidence/ask-for-stamp.ts";
import { stampSignature } from "../features/evidence/seal-manifest.ts";
import { unstampedSignatures } from "../features/evidence/time-stamp-store.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";
import type { Run } from "./queue.ts";

const DAY_MS = 24 * 3_600_000;
/** Older ones are stamped when their evidence is asked for again. */
const LOOKS_BACK_DAYS = 7;
const A_TURN = 50;

export interface StampFigures {
  stamped: number;
  /** Why the run ended early: a service that is down for one signature is so for all. */
  problem?: string;
}

/** Asks for the stamps that are missing. */
export async function stampSignatures(
  db: Database,
  config: Config,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<StampFigures> {
  const figures: StampFigures = { stamped: 0 };
  const service = timeStampService(config);
  if (!service) return figures;
  const since = new Date(now.getTime() - LOOKS_BACK_DAYS * DAY_MS);
  await eachFirm(db, onFailure, async ({ id }) => {
    if (figures.problem !== undefined) return;
    const wish = { since, most: A_TURN };
    for (const kept of await inFirm(db, id, (tx) => unstampedSignatures(tx, wish))) {
      const stamped = await stampSignature(db, id, service, kept);
      if (!stamped.ok) {
        figures.problem = stamped.problem;
        return;
      }
      figures.stamped += 1;
    }
  });
  return figures;
}

export const stampRun = (
  db: Database,
  config: Config,
  logger: FastifyBaseLogger,
  onFailure: OnFailure,
): Run => ({
  name: "time-stamps",
  cron: "*/10 * * * *",
  work: async () => {
    const { stamped, problem } = await stampSignatures(db, config, new Date(), onFailure);
    if (stamped > 0) logger.info({ stamped }, "evidence stamped");
    if (problem !== undefined) logger.warn({ problem }, "evidence left unstamped");
  },
});
