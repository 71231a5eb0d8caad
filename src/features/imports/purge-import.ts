import { inFirm } from "../../db/scope.ts";
import { dropImportFile } from "./import-folder.ts";
import type { Place } from "./import-state.ts";
import { clearRows } from "./rows-store.ts";
import { markPurged, moveImport } from "./store.ts";

const UNCONFIRMED = ["waiting", "uploaded", "checked"] as const;

/** False when it runs, or was done before. What was never confirmed is cancelled: its rows go. */
export async function purgeImport(
  { db, dataFolder, firmId }: Place,
  importId: string,
  now: Date,
): Promise<boolean> {
  const isOver = await inFirm(db, firmId, async (tx) => {
    await moveImport(tx, importId, UNCONFIRMED, { state: "cancelled", finishedAt: now });
    if (!(await markPurged(tx, importId, now))) return false;
    await clearRows(tx, importId);
    return true;
  });
  if (isOver) await dropImportFile({ dataFolder, firmId, importId });
  return isOver;
}
