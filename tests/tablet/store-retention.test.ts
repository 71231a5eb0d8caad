// What stays on the tablet, and for how long: 30 days of the server's time after its reply. The
// tablet's own clock may say anything.
import { afterEach, describe, expect, test } from "vitest";
import type { TabletVisit } from "../../src/features/tablet/schemas.ts";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { packetOf } from "./support/older-layouts.ts";
import { ProtocolServer, page, problem } from "./support/protocol-server.ts";
import { testSync } from "./support/test-sync.ts";
import {
  DAY_MS,
  JOB_ID,
  keepMany,
  photoOf,
  seqsOf,
  snag,
  TestTablet,
} from "./support/test-tablet.ts";

let tablet = new TestTablet();
let service = new ProtocolServer();
afterEach(async () => {
  await tablet.switchOff();
  tablet = new TestTablet();
  service = new ProtocolServer();
});

const TEN_YEARS_MS = 3653 * DAY_MS;
const round = (store: TabletStore, isOpen?: (jobId: string) => boolean) =>
  testSync(tablet, store, service.fetch, isOpen ? { isOpen } : {}).round();
const later = (ms: number): void => {
  service.time = new Date(Date.parse(service.time) + ms).toISOString();
};

describe("settled operations", () => {
  test.each([
    ["one second short of 30 days", 30 * DAY_MS - 1000, [1, 2]],
    ["30 days", 30 * DAY_MS, []],
  ])("%s of the server's time later", async (_when, ms, left) => {
    const store = await tablet.open();
    await keepMany(store, 2);
    await round(store);
    later(ms);
    await round(store);
    expect(seqsOf(await store.ops())).toEqual(left);
    expect(await keepMany(store, 1)).toMatchObject([{ deviceSeq: 3 }]);
  });

  test.each([
    ["ten years ahead", TEN_YEARS_MS],
    ["ten years behind", -TEN_YEARS_MS],
  ])("stay for 30 days of the server's though the tablet's clock jumps %s", async (_how, jump) => {
    const store = await tablet.open();
    await keepMany(store, 2);
    await round(store);
    tablet.clockOffByMs += jump;
    await keepMany(store, 1);
    service.fault = ({ path }) => (path.endsWith("/ops") ? problem(503) : undefined);
    later(29 * DAY_MS);
    await round(store);
    expect(seqsOf(await store.ops())).toEqual([1, 2, 3]);
    service.fault = () => undefined;
    later(2 * DAY_MS);
    await round(await reopened());
    expect(seqsOf(await (await tablet.open()).ops())).toEqual([3]);
  });

  test("are not dropped on the word of a network that is not the service", async () => {
    const store = await tablet.open();
    await keepMany(store, 2);
    await round(store);
    later(400 * DAY_MS);
    service.fault = () => page();
    await round(store);
    expect(seqsOf(await store.ops())).toEqual([1, 2]);
  });
});

async function reopened(): Promise<TabletStore> {
  await tablet.switchOff();
  return tablet.open();
}

test("what is not settled is never dropped, however many years pass", async () => {
  const store = await tablet.open();
  await store.keep({ ...snag(), photos: [photoOf(Uint8Array.of(1, 2, 3))] });
  service.fault = ({ path }) => (path.endsWith("/ops") ? problem(404) : undefined);
  await round(store);
  later(TEN_YEARS_MS);
  expect((await round(store)).state).toBe("outdated");
  expect(await store.counts()).toMatchObject({ kept: 1, waiting: 1, photosWaiting: 1 });
});

test("a photo that was sent goes with its bytes after 30 days, one not sent stays", async () => {
  const store = await tablet.open();
  const [one, two] = [Uint8Array.of(1, 2, 3), Uint8Array.of(4, 5, 6)];
  const { op } = await store.keep({ ...snag(), photos: [photoOf(one)] });
  await round(store);
  later(1000);
  service.fault = ({ path }) => (path.includes("photo-uploads") ? problem(500) : undefined);
  await store.keep({ ...snag(), photos: [photoOf(two)] });
  later(40 * DAY_MS);
  await round(store);
  service.fault = ({ path, method }) =>
    method === "PATCH" && path.includes("photo-uploads") ? problem(422, "No picture.") : undefined;
  await round(await reopened());
  const again = await tablet.open();
  expect(await again.photoBlob(op.photoSha256[0]!)).toBeUndefined();
  expect(await again.photos()).toMatchObject([{ state: "refused", problem: "No picture." }]);
  expect(await (await again.photoBlob((await again.photos())[0]!.sha256))!.bytes()).toEqual(two);
});

describe("packets", () => {
  const visit = (packetVersion: string) => ({ visitId: JOB_ID, jobId: JOB_ID, packetVersion });
  const onList = (version: string): void => {
    service.day = [visit(version) as TabletVisit];
    service.packets.set(JOB_ID, packetOf(version));
    service.dayVersion += 1;
  };
  const offList = (): void => {
    service.day = [];
    service.dayVersion += 1;
  };

  test("are fetched when they are new or have changed, and not otherwise", async () => {
    const store = await tablet.open();
    onList("v1");
    await round(store);
    expect(await store.packet(JOB_ID)).toMatchObject({
      packet: { version: "v1" },
      visit: { packetVersion: "v1" },
    });
    await round(store);
    onList("v2");
    await round(store);
    expect((await store.packets()).map(({ packet }) => packet.version)).toEqual(["v2"]);
    const fetched = service.calls.filter(({ path }) => path.includes("/packets/"));
    expect(fetched.map(({ headers }) => headers.get("if-none-match"))).toEqual([null, '"v1"']);
  });

  test("of a job off the list go, unless something of it is unsent or it is open", async () => {
    const store = await tablet.open();
    onList("v1");
    await round(store);
    await keepMany(store, 1);
    offList();
    service.fault = ({ path }) => (path.endsWith("/ops") ? problem(404) : undefined);
    await round(store);
    const [held] = await store.packets();
    expect(held?.packet.version).toBe("v1");
    expect(held?.visit).toBeUndefined();
    service.fault = () => undefined;
    await round(store, (jobId) => jobId === JOB_ID);
    expect(await store.packets()).toHaveLength(1);
    await round(store);
    expect(await store.packets()).toEqual([]);
  });

  test("go with signing out, signal or none, and come back with signing in", async () => {
    const store = await tablet.open();
    const sync = testSync(tablet, store, service.fetch);
    onList("v1");
    await sync.round();
    expect([(await store.packets()).length, (await store.visits()).length]).toEqual([1, 1]);
    service.fault = () => {
      throw new TypeError("fetch failed");
    };
    await sync.signOut();
    expect([await store.packets(), await store.visits()]).toEqual([[], []]);
    service.fault = () => undefined;
    await sync.round();
    expect([(await store.packets()).length, (await store.visits()).length]).toEqual([1, 1]);
  });

  test("of a job with something unsent stay when somebody signs out", async () => {
    const store = await tablet.open();
    const sync = testSync(tablet, store, service.fetch);
    onList("v1");
    await sync.round();
    await keepMany(store, 1);
    await sync.signOut();
    expect([(await store.packets()).length, await store.visits()]).toEqual([1, []]);
    expect(await store.counts()).toMatchObject({ waiting: 1 });
  });
});
