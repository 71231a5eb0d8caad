// What is still to be sent.
import type { KeptPhoto } from "../contract.ts";
import type { StoreDatabase } from "./layout.ts";
import { readOps } from "./reading.ts";
import type { WaitingRow } from "./sending.ts";

export async function waitingRows(db: StoreDatabase): Promise<WaitingRow[]> {
  const tx = db.transaction(["device", "ops"]);
  const [device, keys] = await Promise.all([
    tx.objectStore("device").get("current"),
    tx.objectStore("ops").index("state").getAllKeys("waiting"),
  ]);
  const first = new Map<string, number>();
  for (const [deviceId, seq] of keys) {
    first.set(deviceId, Math.min(seq, first.get(deviceId) ?? seq));
  }
  const rows = [...first].map(([deviceId, firstSeq]) => ({ deviceId, firstSeq }));
  const isPresent = ({ deviceId }: WaitingRow): number => (deviceId === device?.id ? 1 : 0);
  return rows.sort((a, b) => isPresent(a) - isPresent(b));
}

/** A photo waits for its operation, which is what allows the server to take it. */
export async function waitingPhotos(db: StoreDatabase): Promise<KeptPhoto[]> {
  const photos = await db.getAllFromIndex("photos", "state", "waiting");
  if (photos.length === 0) return [];
  const ops = await readOps(db);
  const early = new Set(
    ops
      .filter(({ state }) => state === "waiting")
      .flatMap(({ op }) => op.photoSha256.map((sha256) => `${op.jobId} ${sha256}`)),
  );
  return photos.filter(({ jobId, sha256 }) => !early.has(`${jobId} ${sha256}`));
}
