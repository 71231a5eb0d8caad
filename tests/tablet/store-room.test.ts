// The room for the store: what the browser promises, and what happens when it runs out. The
// database in memory has no end, so its refusal (QuotaExceededError, Indexed Database API 3.0) is
// played.
import { afterEach, describe, expect, test, vi } from "vitest";
import { phrase } from "../../src/tablet/language/spoken.ts";
import { openKeeper } from "../../src/tablet/store/keeper.ts";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { ProtocolServer } from "./support/protocol-server.ts";
import { testSync } from "./support/test-sync.ts";
import { keepMany, photoOf, seqsOf, snag, TestTablet } from "./support/test-tablet.ts";

let tablet = new TestTablet();
afterEach(async () => {
  vi.restoreAllMocks();
  await tablet.switchOff();
  tablet = new TestTablet();
});

const quota = (): DOMException => new DOMException("no room", "QuotaExceededError");
const picture = (seed: number) => photoOf(Uint8Array.of(seed, 2, 3));

/** Refuses to add while `isFull` says so. */
function fillUp(isFull: () => boolean): void {
  const add = IDBObjectStore.prototype.add;
  vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(function (
    this: IDBObjectStore,
    ...values: Parameters<typeof add>
  ) {
    if (isFull()) throw quota();
    return add.apply(this, values);
  });
}

describe("a full store", () => {
  test("refuses with what to do, keeps nothing of it, until there is room", async () => {
    const store = await tablet.open();
    await keepMany(store, 1);
    let full = true;
    fillUp(() => full);
    await expect(store.keep({ ...snag(), photos: [picture(1)] })).rejects.toMatchObject({
      code: "full",
      message: phrase("tabletSync.notKept.full"),
    });
    expect(await store.health()).toMatchObject({ room: "full" });
    expect(seqsOf(await store.ops())).toEqual([1]);
    expect(await store.photos()).toEqual([]);
    full = false;
    await keepMany(store, 1);
    expect(await store.health()).toMatchObject({ room: "enough" });
    expect(seqsOf(await store.ops())).toEqual([1, 2]);
  });

  test("gives up the pictures that the server has before it refuses", async () => {
    const store = await tablet.open();
    const sent = await store.keep({ ...snag(), photos: [picture(1)] });
    await testSync(tablet, store, new ProtocolServer().fetch).round();
    const unsent = await store.keep({ ...snag(), photos: [picture(2)] });
    let full = true;
    fillUp(() => full);
    const remove = IDBObjectStore.prototype.delete;
    vi.spyOn(IDBObjectStore.prototype, "delete").mockImplementation(function (
      this: IDBObjectStore,
      key,
    ) {
      full = false;
      return remove.call(this, key);
    });
    await keepMany(store, 1);
    expect(seqsOf(await store.ops())).toEqual([1, 2, 3]);
    expect(await store.photoBlob(sent.op.photoSha256[0]!)).toBeUndefined();
    expect((await store.photoBlob(unsent.op.photoSha256[0]!))?.size).toBe(3);
  });

  test("that cannot take down the answers stays waiting, and sends the same again", async () => {
    const store = await tablet.open();
    await keepMany(store, 2);
    const server = new ProtocolServer();
    const sync = testSync(tablet, store, server.fetch);
    const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw quota();
    });
    expect(await sync.round()).toMatchObject({ state: "busy" });
    put.mockRestore();
    expect(await store.counts()).toMatchObject({ waiting: 2 });
    expect(await sync.round()).toMatchObject({ state: "settled" });
    expect(server.stored.size).toBe(2);
  });
});

test("what is kept is asked to be on the disk, not only on its way there", async () => {
  const store = await tablet.open();
  const opened = vi.spyOn(IDBDatabase.prototype, "transaction");
  await store.keep(snag());
  const writes = opened.mock.calls.filter(([, mode]) => mode === "readwrite");
  expect(writes.map(([, , options]) => options)).toEqual([{ durability: "strict" }]);
});

describe("the browser's promise", () => {
  const MEGABYTE = 1024 * 1024;
  let asked = 0;
  async function openWith(persisted: boolean, free: number): Promise<TabletStore> {
    const storage = {
      persist: async () => {
        asked += 1;
        return persisted;
      },
      persisted: async () => persisted,
      estimate: async () => ({ quota: 1000 * MEGABYTE, usage: 1000 * MEGABYTE - free }),
    };
    const marker = { read: () => [], write: () => undefined };
    const platform = { storage, marker, channel: undefined };
    return openKeeper(tablet.firmId, { personId: () => "", name: tablet.name, platform });
  }

  test.each([
    [true, 50 * MEGABYTE, "enough"],
    [false, 50 * MEGABYTE - 1, "low"],
  ])("not to clear the store (%s) and the room left (%d) are told: %s", async (...row) => {
    const [persistent, free, room] = row;
    const before = asked;
    const store = await openWith(persistent, free);
    expect(await store.health()).toEqual({ persistent, room, lost: 0 });
    expect(asked).toBe(before + 1);
    await store.close();
  });
});
