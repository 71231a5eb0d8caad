// A store that was put back as it was some time ago, by a backup of the tablet or a fault of its
// disk: its numbers were used before, for other facts.
import { openDB } from "idb";
import { afterEach, expect, test } from "vitest";
import { ProtocolServer } from "./support/protocol-server.ts";
import { testSync } from "./support/test-sync.ts";
import { keepMany, TestTablet } from "./support/test-tablet.ts";

let tablet = new TestTablet();
let service = new ProtocolServer();
afterEach(async () => {
  await tablet.switchOff();
  tablet = new TestTablet();
  service = new ProtocolServer();
});

/** Everything the tablet's row holds, to be put back later. */
async function copyStore(): Promise<() => Promise<void>> {
  await tablet.switchOff();
  const db = await openDB(tablet.name);
  const [device, ops] = [await db.get("device", "current"), await db.getAll("ops")];
  db.close();
  return async () => {
    await tablet.switchOff();
    const again = await openDB(tablet.name);
    await again.clear("ops");
    await again.put("device", device, "current");
    for (const op of ops) await again.put("ops", op);
    again.close();
  };
}

test("the marker shows it: a new row is begun, and what is missing is told", async () => {
  const store = await tablet.open();
  await keepMany(store, 2);
  const putBack = await copyStore();
  await keepMany(await tablet.open(), 2);
  await putBack();
  const again = await tablet.open();
  const [next] = await keepMany(again, 1);
  expect(next!.deviceSeq).toBe(1);
  expect((await again.health()).lost).toBe(2);
  await testSync(tablet, again, service.fetch).round();
  expect(service.stored.size).toBe(3);
});

test("without the marker the server shows it, and all kept from then on arrives", async () => {
  await keepMany(await tablet.open(), 2);
  const putBack = await copyStore();
  const noted = tablet.marker;
  const first = await tablet.open();
  await keepMany(first, 2);
  await testSync(tablet, first, service.fetch).round();
  await putBack();
  tablet.marker = noted;

  const again = await tablet.open();
  await keepMany(again, 1);
  const sync = testSync(tablet, again, service.fetch);
  expect((await sync.round()).state).toBe("settled");
  expect(await again.counts()).toMatchObject({ refused: 1, waiting: 0 });
  const later = await keepMany(again, 3);
  expect((await sync.round()).state).toBe("settled");
  expect(later.map(({ opId }) => service.stored.get(opId))).toEqual(later);
});
