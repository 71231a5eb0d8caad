// Requirement: what comes back from an outbox file keeps its ids and its place in the row it was
// kept in, so that what the server has of it already is known again there and stored once.
import type { IDBPTransaction } from "idb";
import { operationHash } from "../../domain/evidence/operation-chain.ts";
import type { TabletOp } from "../../features/tablet/schemas.ts";
import { photoOf } from "./keep.ts";
import { type DeviceRow, type Layout, STRICT, type StoreDatabase } from "./layout.ts";
import type { RowMark } from "./marker.ts";
import { type FilePhoto, readOutboxFile } from "./outbox-lines.ts";
import { marksOf, newRow } from "./rows.ts";

export async function restoreFile(
  db: StoreDatabase,
  file: Blob,
  moment: { wallClock: string; newId(): string },
): Promise<{ added: number; unread: number; marks: RowMark[] }> {
  const ops: TabletOp[] = [];
  let unread = 0;
  for await (const line of readOutboxFile(file)) {
    if (!line) unread += 1;
    else if ("op" in line) ops.push(line.op);
    // Photos follow the operations; each is written by itself, so that only one is in memory.
    else await restorePhoto(db, line.photo);
  }
  return { unread, ...(await restoreOps(db, ops, moment)) };
}

type RestoreTransaction = IDBPTransaction<Layout, ("device" | "ops" | "losses")[], "readwrite">;

async function restoreOps(
  db: StoreDatabase,
  ops: readonly TabletOp[],
  { wallClock, newId }: { wallClock: string; newId(): string },
): Promise<{ added: number; marks: RowMark[] }> {
  const names: ("device" | "ops" | "losses")[] = ["device", "ops", "losses"];
  const tx = db.transaction(names, "readwrite", STRICT);
  tx.done.catch(() => undefined);
  const store = tx.objectStore("ops");
  let device = (await tx.objectStore("device").get("current")) ?? newRow(newId());
  let added = 0;
  for (const op of ops) {
    await noteFound(tx, op);
    if (await store.index("opId").getKey(op.opId)) continue;
    added += 1;
    if (await store.getKey([op.deviceId, op.deviceSeq])) {
      // Its place is another's: a copy of this store went its own way. It goes to the end of ours.
      const moved = atEnd(device, op);
      device = { id: device.id, lastSeq: moved.deviceSeq, lastHash: operationHash(moved) };
      await store.add({ op: moved, state: "waiting", keptAt: wallClock });
      continue;
    }
    await store.add({ op, state: "waiting", keptAt: op.wallClock });
    // The store is behind its own row: what it keeps next must not take those places again.
    if (op.deviceId === device.id && op.deviceSeq > device.lastSeq) device = newRow(newId());
  }
  await tx.objectStore("device").put(device, "current");
  const waiting = await store.index("state").getAllKeys("waiting");
  await tx.done;
  return { added, marks: marksOf(device, waiting) };
}

const atEnd = ({ id, lastSeq, lastHash }: DeviceRow, op: TabletOp): TabletOp => ({
  ...op,
  deviceId: id,
  deviceSeq: lastSeq + 1,
  prevHash: lastHash,
});

async function noteFound(tx: RestoreTransaction, op: TabletOp): Promise<void> {
  const losses = tx.objectStore("losses");
  const loss = await losses.get(op.deviceId);
  if (!loss?.missing.includes(op.deviceSeq)) return;
  const missing = loss.missing.filter((seq) => seq !== op.deviceSeq);
  await (missing.length === 0 ? losses.delete(op.deviceId) : losses.put({ ...loss, missing }));
}

async function restorePhoto(db: StoreDatabase, photo: FilePhoto): Promise<void> {
  const tx = db.transaction(["photos", "photoBytes"], "readwrite", STRICT);
  tx.done.catch(() => undefined);
  const held = await tx.objectStore("photos").getKey([photo.jobId, photo.sha256]);
  if (!held) {
    await tx.objectStore("photos").add(photoOf(photo.jobId, photo));
    await tx.objectStore("photoBytes").put(photo.content, photo.sha256);
  }
  await tx.done;
}
