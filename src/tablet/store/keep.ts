// Requirement: "kept" is said after the browser has the operation and its photos on the disk, in
// one transaction; the place in the row is taken in that same one, so two tabs never share it.
import type { IDBPTransaction } from "idb";
import { operationHash } from "../../domain/evidence/operation-chain.ts";
import { sha256Hex } from "../../domain/evidence/sha256.ts";
import { withoutFaults } from "../../domain/texts/text-fault.ts";
import type { TabletOp } from "../../features/tablet/schemas.ts";
import type { NewOp, NewPhoto } from "../contract.ts";
import {
  type DeviceRow,
  type Layout,
  type PacketHead,
  STRICT,
  type StoreDatabase,
  type StoredOp,
  type StoredPhoto,
} from "./layout.ts";
import type { RowMark } from "./marker.ts";
import { marksAfter, marksOf, newRow } from "./rows.ts";

export interface HashedPhoto extends NewPhoto {
  sha256: string;
  content: ArrayBuffer;
}

export interface KeepMoment {
  personId: string;
  wallClock: string;
  monotonicMs: number;
  newId(): string;
  /** What the marker says of the rows, where that is known. */
  noted(): readonly RowMark[] | undefined;
}

/**
 * Before the transaction, which a browser closes when it is kept waiting for anything else. Each
 * picture once, however often it is in the fact.
 */
export async function hashPhotos(photos: readonly NewPhoto[]): Promise<HashedPhoto[]> {
  const hashed = await Promise.all(
    photos.map(async (photo) => {
      const content = await photo.blob.arrayBuffer();
      return { ...photo, content, sha256: await sha256Hex(new Uint8Array(content)) };
    }),
  );
  return [...new Map(hashed.map((photo) => [photo.sha256, photo])).values()];
}

/**
 * As it will be sent: JSON has no undefined, a keyboard can leave half a character, and a paste or
 * a scanner signs that the server would refuse the whole fact for.
 */
export const plainJson = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value), (_name, part) =>
    typeof part === "string" ? withoutFaults(part) : part,
  ) as T;

type StoreName = "device" | "ops" | "photos" | "photoBytes" | "packetHeads";
const NAMES: StoreName[] = ["device", "ops", "photos", "photoBytes", "packetHeads"];
type KeepTransaction = IDBPTransaction<Layout, StoreName[], "readwrite">;

export async function keepOp(
  db: StoreDatabase,
  fact: NewOp,
  photos: readonly HashedPhoto[],
  moment: KeepMoment,
): Promise<{ kept: StoredOp; marks: RowMark[] }> {
  const tx = db.transaction(NAMES, "readwrite", STRICT);
  // Whoever waits for it is told by what is awaited below; this only keeps it from being unheard.
  tx.done.catch(() => undefined);
  try {
    const held = tx.objectStore("photos");
    const [found, head, ...keys] = await Promise.all([
      tx.objectStore("device").get("current"),
      tx.objectStore("packetHeads").get(fact.jobId),
      ...photos.map(({ sha256 }) => held.getKey([fact.jobId, sha256])),
    ]);
    const row = found ?? newRow(moment.newId());
    const op = opOf(row, fact, photos, moment, head);
    const kept: StoredOp = { op, state: "waiting", keptAt: moment.wallClock };
    const device = { id: row.id, lastSeq: op.deviceSeq, lastHash: operationHash(op) };
    const marks = marksAfter(moment.noted(), device) ?? (await marksWith(tx, device));
    await writeAll(tx, { kept, device, photos: photos.filter((_photo, at) => !keys[at]) });
    return { kept, marks };
  } catch (error) {
    abort(tx);
    throw tx.error ?? error;
  }
}

async function marksWith(tx: KeepTransaction, device: DeviceRow): Promise<RowMark[]> {
  const waiting = await tx.objectStore("ops").index("state").getAllKeys("waiting");
  return marksOf(device, [...waiting, [device.id, device.lastSeq]]);
}

interface Written {
  kept: StoredOp;
  device: DeviceRow;
  photos: readonly HashedPhoto[];
}

/** All at once: each answer waited for in between is a way to the disk's process and back. */
async function writeAll(tx: KeepTransaction, { kept, device, photos }: Written): Promise<void> {
  const writes: Promise<unknown>[] = [];
  const write = (request: Promise<unknown>): void => {
    request.catch(() => undefined);
    writes.push(request);
  };
  for (const photo of photos) {
    write(tx.objectStore("photos").add(photoOf(kept.op.jobId, photo)));
    write(tx.objectStore("photoBytes").put(photo.content, photo.sha256));
  }
  write(tx.objectStore("ops").add(kept));
  write(tx.objectStore("device").put(device, "current"));
  tx.commit();
  await Promise.all([...writes, tx.done]);
}

function opOf(
  row: DeviceRow,
  { jobId, payload, seen }: NewOp,
  photos: readonly HashedPhoto[],
  moment: KeepMoment,
  head: PacketHead | undefined,
): TabletOp {
  return {
    opId: moment.newId(),
    deviceId: row.id,
    deviceSeq: row.lastSeq + 1,
    prevHash: row.lastHash,
    jobId,
    personId: moment.personId,
    jobVersionSeen: seen?.jobVersion ?? head?.jobVersion ?? 0,
    orderSeen: seen?.lastOrder ?? head?.lastOrder ?? 0,
    wallClock: moment.wallClock,
    monotonicMs: moment.monotonicMs,
    payload: plainJson(payload),
    photoSha256: photos.map(({ sha256 }) => sha256),
  };
}

export const photoOf = (
  jobId: string,
  photo: Pick<HashedPhoto, "sha256" | "itemId" | "subject" | "mediaType" | "content">,
): StoredPhoto => ({
  sha256: photo.sha256,
  jobId,
  itemId: photo.itemId,
  subject: photo.subject,
  mediaType: photo.mediaType,
  bytes: photo.content.byteLength,
  sentBytes: 0,
  state: "waiting",
});

export function abort(tx: { abort(): void }): void {
  try {
    tx.abort();
  } catch {
    // It is over already, which is what was wanted.
  }
}
