// Requirement: what the server has stays here for 30 days more. A tablet's clock may be wrong by
// years in either direction, so its own is not asked: both ends of the 30 days are times that the
// server told. What is not settled is never dropped, and nothing is while there is no signal.

import { nameOf } from "./keep-refused.ts";
import type { StoreDatabase } from "./layout.ts";

export const KEPT_DAYS = 30;
const DAY_MS = 86_400_000;

type Settled = { serverSettledAt?: string };

const isOver = ({ serverSettledAt }: Settled, serverTime: string): boolean =>
  serverSettledAt !== undefined &&
  Date.parse(serverTime) - Date.parse(serverSettledAt) >= KEPT_DAYS * DAY_MS;

/** @param serverTime RFC 3339, told by the server just now */
export async function dropSettled(db: StoreDatabase, serverTime: string): Promise<void> {
  const tx = db.transaction(["ops", "photos", "photoBytes", "losses"], "readwrite");
  for await (const cursor of tx.objectStore("ops")) {
    const kept = cursor.value;
    if (kept.state === "waiting") continue;
    // A reply without the server's time: its 30 days begin now.
    if (!kept.serverSettledAt) await cursor.update({ ...kept, serverSettledAt: serverTime });
    else if (isOver(kept, serverTime)) await cursor.delete();
  }
  for await (const cursor of tx.objectStore("photos")) {
    const photo = cursor.value;
    if (photo.state !== "sent") continue;
    if (!photo.serverSettledAt) await cursor.update({ ...photo, serverSettledAt: serverTime });
    else if (isOver(photo, serverTime)) await cursor.delete();
  }
  for await (const cursor of tx.objectStore("losses")) {
    const { serverNotedAt, ...loss } = cursor.value;
    if (serverNotedAt === undefined) await cursor.update({ ...loss, serverNotedAt: serverTime });
    else if (isOver({ serverSettledAt: serverNotedAt }, serverTime)) await cursor.delete();
  }
  const photos = tx.objectStore("photos").index("sha256");
  const pictures = tx.objectStore("photoBytes");
  for (const sha256 of await pictures.getAllKeys()) {
    if ((await photos.count(sha256)) === 0) await pictures.delete(sha256);
  }
  await tx.done;
}

/** Makes room: the server has these, and the page can do without their picture. */
export async function dropSentBytes(db: StoreDatabase): Promise<boolean> {
  const tx = db.transaction(["photos", "photoBytes"], "readwrite");
  tx.done.catch(() => undefined);
  try {
    const photos = await tx.objectStore("photos").getAll();
    const needed = new Set(photos.filter(isUnsent).map(({ sha256 }) => sha256));
    const pictures = tx.objectStore("photoBytes");
    const useless = (await pictures.getAllKeys()).filter((sha256) => !needed.has(sha256));
    for (const sha256 of useless) await pictures.delete(sha256);
    await tx.done;
    return useless.length > 0;
  } catch (error) {
    if (nameOf(error) === "QuotaExceededError") return false;
    throw error;
  }
}

const isUnsent = ({ state }: { state: string }): boolean => state !== "sent";
