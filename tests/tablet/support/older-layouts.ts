// Stores as older versions of the page laid them out and filled them.
import { type IDBPDatabase, openDB } from "idb";
import { NO_OPERATION, operationHash } from "../../../src/domain/evidence/operation-chain.ts";
import type { Packet, TabletOp } from "../../../src/features/tablet/schemas.ts";
import { JOB_ID, PERSON_ID } from "./test-tablet.ts";

export const DEVICE_ID = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a0d";
export const PHOTO_SHA256 = "ab".repeat(32);
export const PHOTO_BYTES = Uint8Array.of(1, 2, 3, 4);

export const packetOf = (version: string, jobId = JOB_ID): Packet =>
  ({
    schema: "packet/1",
    version,
    generatedAt: "2026-11-25T08:00:00Z",
    job: { id: jobId, reference: "J-2026-0142", state: "open", version: 5 },
    lastOrder: 17,
  }) as Packet;

function oldOps(): TabletOp[] {
  const ops: TabletOp[] = [];
  for (const deviceSeq of [1, 2, 3]) {
    const before = ops.at(-1);
    ops.push({
      opId: `019ac4a1-0000-7cc1-9d6a-0c8f6f0b7b0${deviceSeq}`,
      deviceId: DEVICE_ID,
      deviceSeq,
      prevHash: before ? operationHash(before) : NO_OPERATION,
      jobId: JOB_ID,
      personId: PERSON_ID,
      jobVersionSeen: 5,
      orderSeen: 17,
      wallClock: `2026-11-24T10:0${deviceSeq}:00.000Z`,
      monotonicMs: deviceSeq * 1000,
      payload: { kind: "snag", text: `Lid ${deviceSeq} missing` },
      photoSha256: deviceSeq === 3 ? [PHOTO_SHA256] : [],
    });
  }
  return ops;
}

export const OLD_OPS = oldOps();

const photo = {
  sha256: PHOTO_SHA256,
  jobId: JOB_ID,
  itemId: "wall_gap",
  subject: "",
  mediaType: "image/jpeg",
  bytes: PHOTO_BYTES.length,
  sentBytes: 2,
  state: "waiting",
  content: PHOTO_BYTES.buffer,
};

/** What an older page had kept: one row, of which the first were sent. */
export interface OldContent {
  ops: readonly TabletOp[];
  settledMany: number;
  photo: { sha256: string; jobId: string; bytes: number; content: ArrayBufferLike };
  packet: Packet;
}

const OLD_CONTENT: OldContent = { ops: OLD_OPS, settledMany: 1, photo, packet: packetOf("a1") };

async function fill(db: IDBPDatabase, content: OldContent): Promise<void> {
  const last = content.ops.at(-1) as TabletOp;
  const { deviceId: id, deviceSeq: lastSeq } = last;
  await db.put("device", { id, lastSeq, lastHash: operationHash(last) }, "current");
  for (const [index, op] of content.ops.entries()) {
    const settled = { state: "stored", settledAt: "2026-11-24T12:00:00.000Z" };
    const state = index < content.settledMany ? settled : { state: "waiting" };
    await db.put("ops", { op, keptAt: op.wallClock, ...state });
  }
  await db.put("photos", content.photo);
  await db.put("packets", { packet: content.packet, fetchedAt: "2026-11-24T08:00:00.000Z" });
  db.close();
}

/** Layout 1: operations by their id; no drafts, no settings. */
export async function makeFirstLayout(name: string, content = OLD_CONTENT): Promise<void> {
  const db = await openDB(name, 1, {
    upgrade: (opened) => {
      opened.createObjectStore("device");
      opened.createObjectStore("ops", { keyPath: "op.opId" });
      opened.createObjectStore("photos", { keyPath: "sha256" });
      opened.createObjectStore("packets", { keyPath: "packet.job.id" });
    },
  });
  await fill(db, content);
}

/** Layout 2: operations by their place, drafts and settings; photos still with their bytes. */
export async function makeSecondLayout(name: string, content = OLD_CONTENT): Promise<void> {
  const db = await openDB(name, 2, {
    upgrade: (opened) => {
      opened.createObjectStore("device");
      const ops = opened.createObjectStore("ops", { keyPath: ["op.deviceId", "op.deviceSeq"] });
      ops.createIndex("opId", "op.opId", { unique: true });
      ops.createIndex("jobId", "op.jobId");
      ops.createIndex("state", "state");
      opened.createObjectStore("photos", { keyPath: "sha256" });
      opened.createObjectStore("packets", { keyPath: "packet.job.id" });
      opened.createObjectStore("drafts");
      opened.createObjectStore("settings");
    },
  });
  await db.put("drafts", { number: "2,7" }, [JOB_ID, "wall_gap", ""]);
  await db.put("settings", "sun", "light");
  await fill(db, content);
}
