import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { readFirm } from "../features/firms/store.ts";
import { todayOfFirm } from "../features/firms/today.ts";
import { dropMailFiles } from "../features/mail/mail-files.ts";
import { allPeriods, FORGOTTEN, overBefore } from "../features/privacy/retention.ts";
import { forgetOld } from "../features/privacy/store.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";
import { purgeReplies, purgeSessions, purgeThrottle } from "./purge-store.ts";

/** A tablet may repeat a request days later; after this long a repeat counts as a new request. */
const REPLIES_KEPT_MS = 7 * 24 * 3_600_000;
const THROTTLE_KEPT_MS = 24 * 3_600_000;
/** What is left after so many batches goes the next day. */
const BATCHES_MOST = 500;
const FORGET_BATCH = 1000;

/** Removes what is over; returns how many rows. */
export async function purge(
  db: Database,
  { dataFolder }: Pick<Config, "dataFolder">,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<number> {
  const before = (ms: number): Date => new Date(now.getTime() - ms);
  let removed = await untilEmpty(() => purgeThrottle(db, before(THROTTLE_KEPT_MS)));
  await eachFirm(db, onFailure, async ({ id }) => {
    removed += await untilEmpty(() => purgeReplies(db, id, before(REPLIES_KEPT_MS)));
    removed += await untilEmpty(() => purgeSessions(db, id, now));
    removed += await forgetFor({ db, dataFolder }, id, now);
  });
  return removed;
}

/** What the firm keeps no longer, each kind by its own period. */
async function forgetFor(
  { db, dataFolder }: { db: Database; dataFolder: string },
  firmId: string,
  now: Date,
): Promise<number> {
  const { periods, today, timeZone } = await inFirm(db, firmId, async (tx) => ({
    periods: await allPeriods(tx),
    today: await todayOfFirm(tx, now),
    timeZone: (await readFirm(tx)).timeZone,
  }));
  let forgotten = 0;
  for (const kind of FORGOTTEN) {
    const months = periods[kind];
    if (months === null) continue;
    const before = overBefore(today, months, timeZone);
    forgotten += await untilEmpty(async () => {
      const ids = await inFirm(db, firmId, (tx) => forgetOld(tx, kind, before, FORGET_BATCH));
      if (kind === "mails") await dropMailFiles(dataFolder, ids);
      return ids.length;
    });
  }
  return forgotten;
}

async function untilEmpty(removeBatch: () => Promise<number>): Promise<number> {
  let removed = 0;
  for (let batch = 0; batch < BATCHES_MOST; batch += 1) {
    const count = await removeBatch();
    if (count === 0) break;
    removed += count;
  }
  return removed;
}
