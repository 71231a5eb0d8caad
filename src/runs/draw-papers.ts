// The record of a job is drawn soon after its close-out, so that neither the customer nor an export
// of the whole fleet waits for it.
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { jobsClosedSince } from "../features/close-out/store.ts";
import { hasPaperSince } from "../features/papers/kept-papers.ts";
import { makeCommissioningRecord } from "../features/papers/make-paper.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";

const LOOK_BACK_MS = 24 * 3_600_000;
/** Of a firm at a time; the next run goes on. */
const PAPERS_MOST = 100;

/** Draws what was closed in the last day and has not been drawn since; returns how many. */
export async function drawPapers(
  db: Database,
  config: Config,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<number> {
  const since = new Date(now.getTime() - LOOK_BACK_MS);
  let drawn = 0;
  await eachFirm(db, onFailure, async (firm) => {
    const firmId = firm.id;
    const closed = await inFirm(db, firmId, (tx) => jobsClosedSince(tx, since, PAPERS_MOST));
    for (const { jobId, closedAt } of closed) {
      const place = { dataFolder: config.dataFolder, firmId, jobId };
      if (await hasPaperSince(place, closedAt)) continue;
      const made = makeCommissioningRecord({ db, config }, { firmId, jobId });
      // One that cannot be drawn keeps no other from it.
      await made.then(
        () => {
          drawn += 1;
        },
        (error: unknown) => onFailure(firm, error),
      );
    }
  });
  return drawn;
}
