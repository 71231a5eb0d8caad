import type { Database } from "../db/client.ts";
import { dropStaleUploads } from "../features/tablet/photo-upload-folder.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";

/** A tablet that comes back later than this sends its photo from the start. */
const UPLOADS_KEPT_MS = 14 * 24 * 3_600_000;

/** Removes photos that never came in whole; returns how many. */
export async function purgePhotoUploads(
  db: Database,
  dataFolder: string,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<number> {
  const before = new Date(now.getTime() - UPLOADS_KEPT_MS);
  let removed = 0;
  await eachFirm(db, onFailure, async ({ id }) => {
    removed += await dropStaleUploads(dataFolder, id, before);
  });
  return removed;
}
