// Requirement: the numbers of a row are used once. A store that was cleared, or put back as it was
// some time ago, goes on in a row of its own, and what is missing from the old one is told.
import { NO_OPERATION } from "../../domain/evidence/operation-chain.ts";
import type { DeviceRow, StoreDatabase } from "./layout.ts";
import { STRICT } from "./layout.ts";
import type { RowMark } from "./marker.ts";

export const newRow = (id: string): DeviceRow => ({ id, lastSeq: 0, lastHash: NO_OPERATION });

/** Keys of operations not settled yet, as the index by state gives them. */
export type OpKey = [deviceId: string, deviceSeq: number];

/** What the marker is to say: the present row, and any other in which something waits. */
export function marksOf(device: DeviceRow, waiting: readonly OpKey[]): RowMark[] {
  const marks = new Map<string, RowMark>([
    [device.id, { deviceId: device.id, lastSeq: device.lastSeq, settledSeq: device.lastSeq }],
  ]);
  for (const [deviceId, seq] of waiting) {
    const { lastSeq = seq, settledSeq = seq - 1 } = marks.get(deviceId) ?? {};
    marks.set(deviceId, {
      deviceId,
      lastSeq: Math.max(lastSeq, seq),
      settledSeq: Math.min(settledSeq, seq - 1),
    });
  }
  return [...marks.values()];
}

/**
 * What the marker is to say once one more was kept in the present row; undefined where what it said
 * before is not how the row stood.
 */
export function marksAfter(
  before: readonly RowMark[] | undefined,
  { id, lastSeq }: DeviceRow,
): RowMark[] | undefined {
  const mark = before?.find(({ deviceId }) => deviceId === id);
  if (!before || mark?.lastSeq !== lastSeq - 1) return undefined;
  return before.map((one) => (one === mark ? { ...mark, lastSeq } : one));
}

/** More cannot have been kept on one tablet unsent; bounds what a spoilt marker can claim. */
const MISSING_MOST = 10_000;

/**
 * Compares the store with what the marker says was kept, notes what is missing, and makes sure that
 * there is a row to go on in.
 */
export async function claimRow(
  db: StoreDatabase,
  noted: readonly RowMark[],
  newId: () => string,
): Promise<RowMark[]> {
  const tx = db.transaction(["device", "ops", "losses"], "readwrite", STRICT);
  const ops = tx.objectStore("ops");
  const losses = tx.objectStore("losses");
  let device = await tx.objectStore("device").get("current");
  for (const mark of noted) {
    const missing = missingOf(mark, await ops.getAllKeys(rowRange(mark.deviceId)));
    const isBehind = device?.id === mark.deviceId && device.lastSeq < mark.lastSeq;
    if (isBehind) device = undefined;
    if (missing.length === 0) continue;
    const before = await losses.get(mark.deviceId);
    const all = new Set([...(before?.missing ?? []), ...missing]);
    await losses.put({ ...before, deviceId: mark.deviceId, missing: [...all] });
  }
  if (!device) {
    device = newRow(newId());
    await tx.objectStore("device").put(device, "current");
  }
  const waiting = await ops.index("state").getAllKeys("waiting");
  await tx.done;
  return marksOf(device, waiting);
}

function missingOf({ lastSeq, settledSeq }: RowMark, present: readonly OpKey[]): number[] {
  const here = new Set(present.map(([, seq]) => seq));
  const missing: number[] = [];
  for (let seq = lastSeq; seq > settledSeq && missing.length < MISSING_MOST; seq -= 1) {
    if (!here.has(seq)) missing.push(seq);
  }
  return missing;
}

/** All of a row, or from a place on. */
export const rowRange = (deviceId: string, fromSeq = 0): IDBKeyRange =>
  IDBKeyRange.bound([deviceId, fromSeq], [deviceId, Number.MAX_SAFE_INTEGER]);
