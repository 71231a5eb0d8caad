// From each layout to the next, within the one transaction in which the browser changes it: either
// all steps happen or none.
import type { IDBPDatabase, IDBPTransaction } from "idb";
import type { HeldPacket } from "../contract.ts";
import type { Layout, PacketHead, StoredOp, StoredPhoto } from "./layout.ts";

/** Older layouts have other types, so the steps work on untyped stores. */
type AnyDatabase = IDBPDatabase<unknown>;
type Change = IDBPTransaction<unknown, string[], "versionchange">;

/** Layout 2: operations by their place in the row; drafts and small choices. */
async function toSecond(db: AnyDatabase, change: Change): Promise<void> {
  const ops: StoredOp[] = db.objectStoreNames.contains("ops")
    ? await change.objectStore("ops").getAll()
    : [];
  if (db.objectStoreNames.contains("ops")) db.deleteObjectStore("ops");
  else {
    db.createObjectStore("device");
    db.createObjectStore("photos", { keyPath: "sha256" });
    db.createObjectStore("packets", { keyPath: "packet.job.id" });
  }
  const store = db.createObjectStore("ops", { keyPath: ["op.deviceId", "op.deviceSeq"] });
  store.createIndex("opId", "op.opId", { unique: true });
  store.createIndex("jobId", "op.jobId");
  store.createIndex("state", "state");
  for (const op of ops) await store.add(op);
  db.createObjectStore("drafts");
  db.createObjectStore("settings");
}

/** Layout 3: a photo's bytes apart from what is known of it, a packet's head from the packet. */
async function toThird(db: AnyDatabase, change: Change): Promise<void> {
  const photos: (StoredPhoto & { content: ArrayBuffer })[] = await change
    .objectStore("photos")
    .getAll();
  const held: HeldPacket[] = await change.objectStore("packets").getAll();
  for (const name of ["photos", "packets"]) db.deleteObjectStore(name);
  const known = db.createObjectStore("photos", { keyPath: ["jobId", "sha256"] });
  for (const index of ["jobId", "state", "sha256"]) known.createIndex(index, index);
  const bytes = db.createObjectStore("photoBytes");
  for (const { content, ...photo } of photos) {
    await known.add(photo);
    await bytes.put(content, photo.sha256);
  }
  const packets = db.createObjectStore("packets");
  const heads = db.createObjectStore("packetHeads", { keyPath: "jobId" });
  for (const entry of held) {
    await packets.add(entry.packet, entry.packet.job.id);
    await heads.add(headOf(entry));
  }
  db.createObjectStore("losses", { keyPath: "deviceId" });
}

export const headOf = ({ packet, fetchedAt, visit }: HeldPacket): PacketHead => ({
  jobId: packet.job.id,
  version: packet.version,
  jobVersion: packet.job.version,
  lastOrder: packet.lastOrder,
  fetchedAt,
  ...(visit ? { visit } : {}),
});

export async function changeLayout(
  db: IDBPDatabase<Layout>,
  from: number,
  change: IDBPTransaction<Layout, never[], "versionchange">,
): Promise<void> {
  const untyped = [db as unknown as AnyDatabase, change as unknown as Change] as const;
  if (from < 2) await toSecond(...untyped);
  if (from < 3) await toThird(...untyped);
}
