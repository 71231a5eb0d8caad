// Exports of evidence that a process left are taken up by the next run; finished files go after
// some days. That they were made stays.
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { dropExport } from "../features/evidence-exports/export-folder.ts";
import { KEPT_DAYS } from "../features/evidence-exports/schemas.ts";
import { markGone, staleExports, waitingExports } from "../features/evidence-exports/store.ts";
import { workOn } from "../features/evidence-exports/work.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";

const DAY_MS = 24 * 3_600_000;

/** Makes what waits and nobody is at; returns how many. */
export async function resumeEvidenceExports(
  db: Database,
  config: Config,
  now: () => Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<number> {
  let resumed = 0;
  await eachFirm(db, onFailure, async (firm) => {
    const onFault = (error: unknown): void => onFailure(firm, error);
    const desk = { db, config, firmId: firm.id, now, onFault };
    for (const id of await inFirm(db, firm.id, (tx) => waitingExports(tx, now()))) {
      if (await workOn(desk, id)) resumed += 1;
    }
  });
  return resumed;
}

/** Removes the files of exports that are over for long; returns how many. */
export async function purgeEvidenceExports(
  db: Database,
  { dataFolder }: Pick<Config, "dataFolder">,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<number> {
  const before = new Date(now.getTime() - KEPT_DAYS * DAY_MS);
  let purged = 0;
  await eachFirm(db, onFailure, async ({ id: firmId }) => {
    for (const exportId of await inFirm(db, firmId, (tx) => staleExports(tx, before))) {
      await inFirm(db, firmId, (tx) => markGone(tx, exportId));
      await dropExport({ dataFolder, firmId, exportId });
      purged += 1;
    }
  });
  return purged;
}
