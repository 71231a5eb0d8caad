// What the server answered, written down; and what has been settled for long enough, dropped.
import type { OpResult } from "../../features/tablet/schemas.ts";
import type { KeptPhoto } from "../contract.ts";
import type { StoreDatabase } from "./layout.ts";
import type { RowMark } from "./marker.ts";
import { marksOf, newRow, rowRange } from "./rows.ts";
import type { PhotoProgress, ReplyTime } from "./sending.ts";

/** Any other outcome leaves the operation waiting. */
const SETTLED = new Set(["stored", "held", "refused"]);

export async function settleOps(
  db: StoreDatabase,
  deviceId: string,
  results: readonly OpResult[],
  { at, serverAt }: ReplyTime,
): Promise<RowMark[]> {
  const tx = db.transaction(["device", "ops"], "readwrite");
  const store = tx.objectStore("ops");
  for (const result of results) {
    const kept = await store.index("opId").get(result.opId);
    if (kept?.op.deviceId !== deviceId || !SETTLED.has(result.outcome)) continue;
    const state = result.outcome as "stored" | "held" | "refused";
    const { serverSettledAt: _before, ...rest } = kept;
    const time = { settledAt: at, ...(serverAt ? { serverSettledAt: serverAt } : {}) };
    await store.put({ ...rest, state, result, ...time });
  }
  const device = (await tx.objectStore("device").get("current")) ?? newRow(deviceId);
  const waiting = await store.index("state").getAllKeys("waiting");
  await tx.done;
  return marksOf(device, waiting);
}

export async function notePhoto(
  db: StoreDatabase,
  { jobId, sha256 }: KeptPhoto,
  progress: PhotoProgress,
  time?: ReplyTime,
): Promise<void> {
  const tx = db.transaction("photos", "readwrite");
  const photo = await tx.store.get([jobId, sha256]);
  if (photo) {
    const settled = time?.serverAt ? { serverSettledAt: time.serverAt } : {};
    await tx.store.put({ ...photo, ...progress, ...settled });
  }
  await tx.done;
}

/** Without a gap, and not more than a request may carry. */
export async function opsFrom(db: StoreDatabase, deviceId: string, fromSeq: number, most: number) {
  const found = await db.getAll("ops", rowRange(deviceId, fromSeq), most);
  return found.map(({ op }) => op).filter((op, index) => op.deviceSeq === fromSeq + index);
}
