// Whether the browser will keep the store, and how much room there is.
import type { StoreHealth } from "../contract.ts";

export type StorageRoom = Pick<StorageManager, "persist" | "persisted" | "estimate">;

/** About a hundred photos as the tablet reduces them. */
const LOW_BYTES = 50 * 1024 * 1024;

/** Asked for at each start: the answer changes once the page is used or installed. */
export async function askToStay(storage: StorageRoom | undefined): Promise<void> {
  await storage?.persist().catch(() => false);
}

export async function readRoom(
  storage: StorageRoom | undefined,
  wasFull: boolean,
): Promise<Omit<StoreHealth, "lost">> {
  const [persistent, estimate] = await Promise.all([
    storage?.persisted().catch(() => false) ?? false,
    storage?.estimate().catch(() => ({}) as StorageEstimate) ?? ({} as StorageEstimate),
  ]);
  if (wasFull) return { persistent, room: "full" };
  const { quota, usage } = estimate;
  const isLow = quota !== undefined && usage !== undefined && quota - usage < LOW_BYTES;
  return { persistent, room: isLow ? "low" : "enough" };
}
