// A browser that clears the store for want of room, before and after the server had everything,
// with and without an outbox file.
import { afterEach, describe, expect, test } from "vitest";
import { readMarks, writeMarks } from "../../src/tablet/store/marker.ts";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { ProtocolServer } from "./support/protocol-server.ts";
import { testSync } from "./support/test-sync.ts";
import { keepMany, photoOf, seqsOf, snag, TestTablet } from "./support/test-tablet.ts";

let tablet = new TestTablet();
let service = new ProtocolServer();
afterEach(async () => {
  await tablet.switchOff();
  tablet = new TestTablet();
  service = new ProtocolServer();
});

const send = (store: TabletStore) => testSync(tablet, store, service.fetch).round();

async function cleared(): Promise<TabletStore> {
  await tablet.clearStore();
  return tablet.open();
}

describe("a store that was cleared", () => {
  test("before anything was sent tells how many are lost, and starts a new row", async () => {
    const [first] = await keepMany(await tablet.open(), 3);
    const store = await cleared();
    expect((await store.health()).lost).toBe(3);
    const [next] = await keepMany(store, 1);
    expect(next!.deviceSeq).toBe(1);
    expect(next!.deviceId).not.toBe(first!.deviceId);
  });

  test("after the server had everything tells of no loss", async () => {
    const store = await tablet.open();
    await keepMany(store, 3);
    expect((await send(store)).state).toBe("settled");
    expect((await (await cleared()).health()).lost).toBe(0);
  });

  test("after a part was sent tells of the rest, also when it is opened again", async () => {
    const store = await tablet.open();
    await keepMany(store, 2);
    await send(store);
    await keepMany(store, 3);
    expect((await (await cleared()).health()).lost).toBe(3);
    await tablet.switchOff();
    expect((await (await tablet.open()).health()).lost).toBe(3);
  });

  test("while the page is open is noticed at the next thing kept", async () => {
    const store = await tablet.open();
    await keepMany(store, 2);
    const other = await tablet.open();
    await other.close();
    await tablet.clearStore();
    const again = await tablet.open();
    await again.keep(snag());
    expect(seqsOf(await again.ops())).toEqual([1]);
    expect((await again.health()).lost).toBe(2);
  });
});

describe("an outbox file", () => {
  test("brings back what was lost under its old ids and places, and it is sent once", async () => {
    const before = await tablet.open();
    await keepMany(before, 2);
    await send(before);
    const bytes = Uint8Array.from({ length: 100_000 }, (_, index) => (index * 31) % 256);
    const { op: withPhoto } = await before.keep({ ...snag(), photos: [photoOf(bytes)] });
    const unsent = [withPhoto, ...(await keepMany(before, 2))];
    const file = await before.outboxFile();

    const after = await cleared();
    const [later] = await keepMany(after, 1);
    expect(await after.restore(file)).toBe(3);
    expect((await after.health()).lost).toBe(0);
    expect((await after.ops()).map(({ op }) => op)).toEqual([...unsent, later]);
    expect((await send(after)).state).toBe("settled");
    expect(service.stored.size).toBe(6);
    expect(unsent.map(({ opId }) => service.stored.get(opId))).toEqual(unsent);
    expect([...service.photos.values()][0]?.length).toBe(100_000);
    expect(await after.counts()).toMatchObject({ waiting: 0, refused: 0, photosWaiting: 0 });
  });

  test("taken back in twice, or where nothing was lost, adds nothing", async () => {
    const store = await tablet.open();
    await keepMany(store, 2);
    const file = await store.outboxFile();
    expect(await store.restore(file)).toBe(0);
    const again = await cleared();
    expect([await again.restore(file), await again.restore(file)]).toEqual([2, 0]);
  });

  test("saved before all was kept brings back its share; the rest stays lost", async () => {
    const store = await tablet.open();
    await keepMany(store, 2);
    const file = await store.outboxFile();
    await keepMany(store, 1);
    const again = await cleared();
    await again.restore(file);
    expect((await again.health()).lost).toBe(1);
  });

  test("that was sent by another way meanwhile is known again by the server", async () => {
    const store = await tablet.open();
    const ops = await keepMany(store, 3);
    const file = await store.outboxFile();
    for (const op of ops) service.take(op);
    const again = await cleared();
    await again.restore(file);
    await send(again);
    expect(service.stored.size).toBe(3);
    expect((await again.ops()).map(({ result }) => result?.repeated)).toEqual([true, true, true]);
  });

  test("with a spoilt line brings back the others, and those behind the gap arrive", async () => {
    const store = await tablet.open();
    await keepMany(store, 3);
    const lines = (await (await store.outboxFile()).text()).trim().split("\n");
    lines[1] = lines[1]!.slice(0, 40);
    const again = await cleared();
    expect(await again.restore(new Blob([lines.join("\n")]))).toBe(2);
    expect((await send(again)).state).toBe("settled");
    expect(service.stored.size).toBe(2);
    expect((await again.health()).lost).toBe(1);
  });

  test("of this store as it was later moves the present row out of the way", async () => {
    const store = await tablet.open();
    await keepMany(store, 2);
    await keepMany(store, 1);
    const file = await store.outboxFile();
    tablet.marker = "";
    const again = await cleared();
    await again.restore(file);
    const { op } = await again.keep(snag());
    await send(again);
    expect(service.stored.size).toBe(4);
    expect(service.stored.get(op.opId)).toEqual(op);
  });
});

test("the marker reads what it writes, from the place that knows more, and nothing else", () => {
  const id = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a0d";
  const text = writeMarks([{ deviceId: id, lastSeq: 9, settledSeq: 4 }]);
  const older = writeMarks([{ deviceId: id, lastSeq: 7, settledSeq: 5 }]);
  expect(readMarks([text, older])).toEqual([{ deviceId: id, lastSeq: 9, settledSeq: 5 }]);
  expect(readMarks(["", "x.1.2", `${id}.1`, `${id}.-1.0`, `${id}.1.2.3`])).toEqual([]);
});
