// A newer page over a store that an older one laid out.
import { openDB } from "idb";
import { afterEach, describe, expect, test } from "vitest";
import { operationHash } from "../../src/domain/evidence/operation-chain.ts";
import { LAYOUT_VERSION } from "../../src/tablet/store/layout.ts";
import {
  DEVICE_ID,
  makeFirstLayout,
  makeSecondLayout,
  OLD_OPS,
  PHOTO_BYTES,
  PHOTO_SHA256,
} from "./support/older-layouts.ts";
import { JOB_ID, snag, TestTablet } from "./support/test-tablet.ts";

let tablet = new TestTablet();
afterEach(async () => {
  await tablet.switchOff();
  tablet = new TestTablet();
});

describe.each([
  ["two versions old", makeFirstLayout],
  ["one version old", makeSecondLayout],
])("a store %s", (_age, make) => {
  test("keeps its operations, photos and packets, and its row goes on", async () => {
    await make(tablet.name);
    const store = await tablet.open();
    const ops = await store.ops(JOB_ID);
    expect(ops.map(({ op }) => op)).toEqual(OLD_OPS);
    expect(ops.map(({ state }) => state)).toEqual(["stored", "waiting", "waiting"]);
    expect(await store.photos(JOB_ID)).toMatchObject([{ sha256: PHOTO_SHA256, sentBytes: 2 }]);
    const blob = await store.photoBlob(PHOTO_SHA256);
    expect(new Uint8Array(await blob!.arrayBuffer())).toEqual(PHOTO_BYTES);
    expect((await store.packet(JOB_ID))?.packet.version).toBe("a1");
    expect(await store.waitingRows()).toEqual([{ deviceId: DEVICE_ID, firstSeq: 2 }]);
    const { op } = await store.keep(snag());
    expect(op).toMatchObject({ deviceId: DEVICE_ID, deviceSeq: 4, orderSeen: 17 });
    expect(op).toMatchObject({ jobVersionSeen: 5, prevHash: operationHash(OLD_OPS[2]!) });
    expect((await store.health()).lost).toBe(0);
  });
});

test("drafts and settings of the layout before are there", async () => {
  await makeSecondLayout(tablet.name);
  const store = await tablet.open();
  const key = { jobId: JOB_ID, itemId: "wall_gap", subject: "" };
  expect(await store.draft(key)).toEqual({ number: "2,7" });
  expect(await store.setting("light")).toBe("sun");
});

test("an older page makes way for the newer layout, and then says that it is too old", async () => {
  const older = await tablet.open();
  await older.keep(snag());
  const newer = await openDB(tablet.name, LAYOUT_VERSION + 1);
  await expect(older.keep(snag())).rejects.toMatchObject({ code: "outdated" });
  expect(await newer.getAll("ops")).toHaveLength(1);
  newer.close();
});
