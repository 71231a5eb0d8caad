// Requirement: one operation that the server cannot take must not hold up all that follow it in its
// row. Those go on in a new row with new places; what they say, and their ids, stay.
import { NO_OPERATION, operationHash } from "../../domain/evidence/operation-chain.ts";
import { STRICT, type StoreDatabase } from "./layout.ts";
import type { RowMark } from "./marker.ts";
import { marksOf, newRow, rowRange } from "./rows.ts";

/**
 * Moves what waits in a row from a place on. To be called only where the server is known to have
 * none of it. Where the row is the present one, what is kept from now on goes to the new row too.
 */
export async function moveRow(
  db: StoreDatabase,
  deviceId: string,
  fromSeq: number,
  newId: () => string,
): Promise<RowMark[]> {
  const tx = db.transaction(["device", "ops"], "readwrite", STRICT);
  const store = tx.objectStore("ops");
  const device = (await tx.objectStore("device").get("current")) ?? newRow(newId());
  const behind = await store.getAll(rowRange(deviceId, fromSeq));
  const id = newId();
  const row = { id, lastSeq: 0, lastHash: NO_OPERATION };
  for (const kept of behind.filter(({ state }) => state === "waiting")) {
    await store.delete([deviceId, kept.op.deviceSeq]);
    row.lastSeq += 1;
    const op = { ...kept.op, deviceId: id, deviceSeq: row.lastSeq, prevHash: row.lastHash };
    await store.add({ ...kept, op });
    row.lastHash = operationHash(op);
  }
  const present = device.id === deviceId ? row : device;
  await tx.objectStore("device").put(present, "current");
  const waiting = await store.index("state").getAllKeys("waiting");
  await tx.done;
  return marksOf(present, waiting);
}
