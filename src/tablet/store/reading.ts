// What the page shows of the store.
import type { Counts, HeldPacket, KeptPhoto } from "../contract.ts";
import type { PacketHead, StoreDatabase, StoredOp } from "./layout.ts";

/** In the order in which they were kept: rows by their first operation, the present row last. */
export async function readOps(db: StoreDatabase, jobId?: string): Promise<StoredOp[]> {
  const tx = db.transaction(["device", "ops"]);
  const store = tx.objectStore("ops");
  const [device, found] = await Promise.all([
    tx.objectStore("device").get("current"),
    jobId === undefined ? store.getAll() : store.index("jobId").getAll(jobId),
  ]);
  const firstAt = new Map<string, number>();
  for (const { op } of found) {
    if (!firstAt.has(op.deviceId)) firstAt.set(op.deviceId, Date.parse(op.wallClock));
  }
  const rank = (id: string): number => (id === device?.id ? Infinity : (firstAt.get(id) ?? 0));
  return found.sort(({ op: a }, { op: b }) =>
    a.deviceId === b.deviceId
      ? a.deviceSeq - b.deviceSeq
      : compare(rank(a.deviceId), rank(b.deviceId)) || (a.deviceId < b.deviceId ? -1 : 1),
  );
}

/** Not by subtraction: two infinities have no difference. */
const compare = (a: number, b: number): number => (a === b ? 0 : a < b ? -1 : 1);

export const readPhotos = (db: StoreDatabase, jobId?: string): Promise<KeptPhoto[]> =>
  jobId === undefined ? db.getAll("photos") : db.getAllFromIndex("photos", "jobId", jobId);

export async function readPhotoBlob(db: StoreDatabase, sha256: string): Promise<Blob | undefined> {
  const tx = db.transaction(["photos", "photoBytes"]);
  const [photo, content] = await Promise.all([
    tx.objectStore("photos").index("sha256").get(sha256),
    tx.objectStore("photoBytes").get(sha256),
  ]);
  return photo && content && new Blob([content], { type: photo.mediaType });
}

export async function readPackets(db: StoreDatabase): Promise<HeldPacket[]> {
  const tx = db.transaction(["packets", "packetHeads"]);
  const [heads, packets] = await Promise.all([
    tx.objectStore("packetHeads").getAll(),
    tx.objectStore("packets").getAll(),
  ]);
  const byJob = new Map(packets.map((packet) => [packet.job.id, packet]));
  return heads.flatMap((head) => heldOf(head, byJob.get(head.jobId)));
}

export async function readPacket(
  db: StoreDatabase,
  jobId: string,
): Promise<HeldPacket | undefined> {
  const tx = db.transaction(["packets", "packetHeads"]);
  const [head, packet] = await Promise.all([
    tx.objectStore("packetHeads").get(jobId),
    tx.objectStore("packets").get(jobId),
  ]);
  return head && heldOf(head, packet)[0];
}

const heldOf = (
  { fetchedAt, visit }: PacketHead,
  packet: HeldPacket["packet"] | undefined,
): HeldPacket[] => (packet ? [{ packet, fetchedAt, ...(visit ? { visit } : {}) }] : []);

export async function readCounts(db: StoreDatabase): Promise<Counts> {
  const tx = db.transaction(["ops", "photos"]);
  const ops = tx.objectStore("ops");
  const inState = (state: string): Promise<number> => ops.index("state").count(state);
  const [kept, waiting, held, refused, photos] = await Promise.all([
    ops.count(),
    inState("waiting"),
    inState("held"),
    inState("refused"),
    tx.objectStore("photos").index("state").getAll("waiting"),
  ]);
  const photoBytesWaiting = photos.reduce(
    (sum, { bytes, sentBytes }) => sum + bytes - sentBytes,
    0,
  );
  return { kept, waiting, held, refused, photosWaiting: photos.length, photoBytesWaiting };
}

/** Operations known to have been kept here and gone, less those that came back since. */
export async function countLost(db: StoreDatabase): Promise<number> {
  const losses = await db.getAll("losses");
  return losses.reduce((sum, { missing }) => sum + missing.length, 0);
}
