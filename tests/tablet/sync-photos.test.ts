// Photos in pieces, behind the readings.
import { createHash } from "node:crypto";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { PIECE_BYTES } from "../../src/tablet/sync/send-photos.ts";
import { ProtocolServer, page, problem } from "./support/protocol-server.ts";
import { type TestSync, testSync } from "./support/test-sync.ts";
import { JOB_ID, photoOf, snag, TestTablet } from "./support/test-tablet.ts";

let tablet: TestTablet;
let service: ProtocolServer;
let store: TabletStore;
let sync: TestSync;
beforeEach(async () => {
  tablet = new TestTablet();
  service = new ProtocolServer();
  store = await tablet.open();
  sync = testSync(tablet, store, service.fetch);
});
afterEach(() => tablet.switchOff());

const picture = Uint8Array.from({ length: 2 * PIECE_BYTES + 100 }, (_, at) => (at * 13) % 253);
const sha256 = createHash("sha256").update(picture).digest("hex");
const ADDRESS = `/api/v1/jobs/${JOB_ID}/photo-uploads/${sha256}`;
const keepPhoto = () => store.keep({ ...snag(), photos: [photoOf(picture)] });
const arrived = (): Uint8Array => Buffer.concat(service.photos.get(ADDRESS)?.bytes ?? []);
const pieces = (): number[] =>
  service.calls.filter(({ method }) => method === "PATCH").map(({ bytes }) => bytes?.length ?? 0);

test("goes after the readings, in pieces, with the item it belongs to", async () => {
  await keepPhoto();
  expect((await sync.round()).state).toBe("settled");
  expect(Buffer.from(arrived()).equals(Buffer.from(picture))).toBe(true);
  expect(pieces()).toEqual([PIECE_BYTES, PIECE_BYTES, 100]);
  const order = service.calls.map(({ method, path }) => `${method} ${path}`);
  expect(order.indexOf("POST /api/v1/tablet/ops")).toBeLessThan(order.indexOf(`HEAD ${ADDRESS}`));
  expect(order).toContain(`PATCH ${ADDRESS}?itemId=wall_gap&subject=`);
  expect(await store.photos()).toMatchObject([{ state: "sent", sentBytes: picture.length }]);
});

test("goes on where the connection broke, and tells how far it is", async () => {
  await keepPhoto();
  let sent = 0;
  service.fault = ({ method }) => {
    if (method !== "PATCH") return undefined;
    sent += 1;
    return sent === 2 ? Promise.reject(new TypeError("broken")) : undefined;
  };
  expect((await sync.round()).state).toBe("offline");
  expect(await store.photos()).toMatchObject([{ state: "waiting", sentBytes: PIECE_BYTES }]);
  expect(await store.counts()).toMatchObject({ photoBytesWaiting: PIECE_BYTES + 100 });
  expect((await sync.round()).state).toBe("settled");
  expect(Buffer.from(arrived()).equals(Buffer.from(picture))).toBe(true);
});

test("whose reply was lost is asked about, and no piece is there twice", async () => {
  await keepPhoto();
  let lost = false;
  const fetch = async (path: string, init: RequestInit): Promise<Response> => {
    const reply = await service.fetch(path, init);
    if (lost || init.method !== "PATCH") return reply;
    lost = true;
    throw new TypeError("lost");
  };
  const forgetful = testSync(tablet, store, fetch);
  expect((await forgetful.round()).state).toBe("offline");
  expect((await forgetful.round()).state).toBe("settled");
  expect(pieces()).toEqual([PIECE_BYTES, PIECE_BYTES, 100]);
  expect(Buffer.from(arrived()).equals(Buffer.from(picture))).toBe(true);
});

test("that the server has already is not sent again", async () => {
  await keepPhoto();
  service.photos.set(ADDRESS, { bytes: [picture], length: picture.length });
  expect((await sync.round()).state).toBe("settled");
  expect(pieces()).toEqual([]);
  expect(await store.photos()).toMatchObject([{ state: "sent" }]);
});

test("goes on from the place that a refusal tells (409)", async () => {
  await keepPhoto();
  service.photos.set(ADDRESS, { bytes: [picture.slice(0, 1000)], length: picture.length });
  service.fault = ({ method }) =>
    method === "HEAD"
      ? new Response(null, { status: 204, headers: { "upload-offset": "0" } })
      : undefined;
  expect((await sync.round()).state).toBe("settled");
  expect(Buffer.from(arrived()).equals(Buffer.from(picture))).toBe(true);
});

test("that is sent back without end waits for another round", async () => {
  await keepPhoto();
  service.fault = ({ method }) =>
    method === "PATCH" ? problem(409, "Elsewhere.", { "upload-offset": "0" }) : undefined;
  expect((await sync.round()).state).toBe("busy");
  expect(pieces()).toHaveLength(6);
  expect(await store.photos()).toMatchObject([{ state: "waiting" }]);
});

test.each([
  [422, "No picture in it."],
  [409, "The job is not open."],
  [404, "There is no such job."],
])("that is refused (%d) says why, stays, and holds nothing up", async (status, sentence) => {
  await keepPhoto();
  await store.keep({ ...snag(), photos: [photoOf(Uint8Array.of(9))] });
  service.fault = ({ path }) => (path.startsWith(ADDRESS) ? problem(status, sentence) : undefined);
  expect((await sync.round()).state).toBe("settled");
  const photos = await store.photos();
  expect(photos.find((photo) => photo.sha256 === sha256)).toMatchObject({
    state: "refused",
    problem: sentence,
  });
  expect(photos.find((photo) => photo.sha256 !== sha256)).toMatchObject({ state: "sent" });
  expect((await store.photoBlob(sha256))?.size).toBe(picture.length);
});

test.each([
  ["a page", () => page()],
  [
    "JSON of somebody else's",
    () => new Response("{}", { headers: { "content-type": "application/json" } }),
  ],
  ["a yes without a place", () => new Response(null, { status: 204 })],
])("is not taken for sent on the word of %s", async (_what, answer) => {
  await keepPhoto();
  service.fault = ({ path }) => (path.startsWith(ADDRESS) ? answer() : undefined);
  expect((await sync.round()).state).toBe("stranger");
  expect(await store.photos()).toMatchObject([{ state: "waiting", sentBytes: 0 }]);
});

test("lets what is kept meanwhile go first", async () => {
  await keepPhoto();
  service.fault = async ({ method }) => {
    if (method === "PATCH" && pieces().length === 1) await store.keep(snag());
    return undefined as never;
  };
  await sync.round();
  const order = service.calls.flatMap(({ method, path }) => {
    if (path.endsWith("/ops")) return ["ops"];
    return method === "PATCH" ? ["piece"] : [];
  });
  expect(order).toEqual(["ops", "piece", "ops", "piece", "piece"]);
});

test("waits while its operation does", async () => {
  await keepPhoto();
  service.fault = ({ path }) => (path.endsWith("/ops") ? problem(404) : undefined);
  expect((await sync.round()).state).toBe("outdated");
  expect(service.photos.size).toBe(0);
});
