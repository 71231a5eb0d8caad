// Imports that a process left behind are taken up by the next run, and what is long over goes: its
// rows and its file. That it was, and what it came to, stays.
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { purgeImport } from "../features/imports/purge-import.ts";
import { staleImports, waitingImports } from "../features/imports/store.ts";
import { workOn } from "../features/imports/work.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";

/** So long its bad rows can be read. */
const IMPORTS_KEPT_MS = 90 * 24 * 3_600_000;

/** Works on what waits and nobody is at; returns how many. */
export async function resumeImports(
  db: Database,
  { dataFolder }: Pick<Config, "dataFolder">,
  now: () => Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<number> {
  let resumed = 0;
  await eachFirm(db, onFailure, async (firm) => {
    const onFault = (error: unknown): void => onFailure(firm, error);
    const desk = { db, dataFolder, firmId: firm.id, now, onFault };
    for (const id of await inFirm(db, firm.id, (tx) => waitingImports(tx, now()))) {
      if (await workOn(desk, id)) resumed += 1;
    }
  });
  return resumed;
}

/** Removes the rows and files of imports that are long over; returns of how many. */
export async function purgeImports(
  db: Database,
  { dataFolder }: Pick<Config, "dataFolder">,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<number> {
  const before = new Date(now.getTime() - IMPORTS_KEPT_MS);
  let purged = 0;
  await eachFirm(db, onFailure, async ({ id: firmId }) => {
    for (const importId of await inFirm(db, firmId, (tx) => staleImports(tx, before))) {
      if (await purgeImport({ db, dataFolder, firmId }, importId, now)) purged += 1;
    }
  });
  return purged;
}
