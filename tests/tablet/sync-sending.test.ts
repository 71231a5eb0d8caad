// Sending through everything that a network and a service in trouble answer: nothing is marked as
// sent that was not answered by the service itself, and everything arrives in the end.
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { OpPayload, TabletOp } from "../../src/features/tablet/schemas.ts";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { BATCH_OPS } from "../../src/tablet/sync/send-ops.ts";
import { type Fault, ProtocolServer, page, problem } from "./support/protocol-server.ts";
import { type TestSync, testSync } from "./support/test-sync.ts";
import { keepMany, snag, TestTablet } from "./support/test-tablet.ts";

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

const OPS = "/api/v1/tablet/ops";
const json = (body: unknown): Response =>
  new Response(JSON.stringify(body), { headers: { "content-type": "application/json" } });
const onOps =
  (answer: Fault): Fault =>
  (call) =>
    call.path === OPS ? answer(call) : undefined;
const opsOf = (call: { body: unknown }): TabletOp[] => (call.body as { ops: TabletOp[] }).ops;
const offline = (): Promise<Response> => Promise.reject(new TypeError("fetch failed"));

test(`a day's work goes in order, at most ${BATCH_OPS} at a time`, async () => {
  const ops = await keepMany(store, 2 * BATCH_OPS + 1);
  expect(await sync.round()).toMatchObject({ state: "settled", lastContactAt: expect.any(String) });
  expect(service.batches()).toEqual([BATCH_OPS, BATCH_OPS, 1]);
  expect([...service.stored.values()]).toEqual(ops);
  expect(await store.counts()).toMatchObject({ kept: 101, waiting: 0 });
});

describe("a reply that is not the service's yes", () => {
  test.each<[string, Fault, string]>([
    ["no signal", () => offline(), "offline"],
    ["a sign-on page instead of the service", () => page(), "stranger"],
    ["a sign-on page that refuses", () => page(403), "stranger"],
    ["a redirect to a sign-on page", () => new Response(null, { status: 302 }), "stranger"],
    ["network authentication required (RFC 6585)", () => page(511), "stranger"],
    ["JSON that is somebody else's", () => json({ ok: true }), "stranger"],
    [
      "JSON that is cut off",
      () => new Response("{", { headers: { "content-type": "application/json" } }),
      "stranger",
    ],
    ["an empty reply", () => new Response(null, { status: 204 }), "stranger"],
    ["a fault of the service", () => problem(500), "busy"],
    ["a proxy whose service is down", () => page(502), "busy"],
    ["a busy service", () => problem(503), "busy"],
    ["too many requests", () => problem(429), "busy"],
    ["a service without this address", () => problem(404), "outdated"],
    ["a role that was taken away", () => problem(403, "Your role may not."), "sign-in"],
    ["a method that is gone", () => problem(405), "outdated"],
  ])("%s", async (_what, fault, state) => {
    await keepMany(store, 3);
    service.fault = onOps(fault);
    expect((await sync.round()).state).toBe(state);
    expect(await store.counts()).toMatchObject({ waiting: 3 });
    service.fault = () => undefined;
    sync.pass(60 * 60_000);
    expect((await sync.round()).state).toBe("settled");
    expect(service.stored.size).toBe(3);
  });

  test("a lost reply after the server stored all: sent again, each is there once", async () => {
    const ops = await keepMany(store, 3);
    service.fault = onOps((call) => {
      for (const op of opsOf(call)) service.take(op);
      return offline();
    });
    expect((await sync.round()).state).toBe("offline");
    service.fault = () => undefined;
    expect((await sync.round()).state).toBe("settled");
    expect([...service.stored.values()]).toEqual(ops);
    expect((await store.ops()).map(({ result }) => result?.repeated)).toEqual([true, true, true]);
  });
});

describe("what the service says of each operation", () => {
  test("held is settled, told with its sentence, and not sent again", async () => {
    await keepMany(store, 1);
    service.fault = onOps((call) => {
      const [{ opId, deviceSeq }] = opsOf(call) as [TabletOp];
      const sentence = "The job is closed.";
      const held = { opId, deviceSeq, outcome: "held", repeated: false, code: "x", sentence };
      return json({ results: [held], storedThrough: 1 });
    });
    await sync.round();
    await sync.round();
    expect(service.batches()).toEqual([1]);
    expect(await store.ops()).toMatchObject([
      { state: "held", result: { sentence: "The job is closed." } },
    ]);
    expect(await store.counts()).toMatchObject({ held: 1, waiting: 0 });
  });

  test("an outcome this version does not know stays waiting; the known ones count", async () => {
    await keepMany(store, 2);
    service.fault = onOps((call) => {
      const results = opsOf(call).map(({ opId, deviceSeq }) => {
        const outcome = deviceSeq === 1 ? "stored" : "postponed";
        return { opId, deviceSeq, outcome, repeated: false };
      });
      return json({ results, storedThrough: 1 });
    });
    expect((await sync.round()).state).toBe("outdated");
    expect((await store.ops()).map(({ state }) => state)).toEqual(["stored", "waiting"]);
  });

  test("results of operations that were not sent change nothing", async () => {
    await keepMany(store, 1);
    const opId = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7aff";
    const result = { opId, deviceSeq: 1, outcome: "stored", repeated: false };
    service.fault = onOps(() => json({ results: [result], storedThrough: 1 }));
    expect((await sync.round()).state).toBe("busy");
    expect(await store.counts()).toMatchObject({ waiting: 1 });
  });

  test("a server that was put back from a backup gets again what it has lost", async () => {
    const ops = await keepMany(store, 4);
    await sync.round();
    for (const { opId } of ops.slice(1)) service.stored.delete(opId);
    service.lastSeqs.set(ops[0]!.deviceId, 1);
    const [last] = await keepMany(store, 1);
    expect((await sync.round()).state).toBe("settled");
    expect([...service.stored.values()]).toEqual([...ops, last]);
  });

  test("one that says early without end does not keep the tablet busy", async () => {
    await keepMany(store, 2);
    service.fault = onOps((call) => {
      const results = opsOf(call).map(({ opId, deviceSeq }) => {
        return { opId, deviceSeq, outcome: "early", repeated: false };
      });
      return json({ results, storedThrough: 0 });
    });
    expect((await sync.round()).state).toBe("busy");
    expect(service.batches()).toEqual([2, 2]);
    expect(await store.counts()).toMatchObject({ waiting: 2 });
  });
});

describe("what the service cannot read", () => {
  const textOf = ({ payload }: TabletOp): string =>
    (payload as Extract<OpPayload, { kind: "snag" }>).text;
  const refuse = (text: string, status: number): Fault =>
    onOps((call) => (opsOf(call).some((op) => textOf(op) === text) ? problem(status) : undefined));

  test.each([413, 422, 400])("holds up nothing but itself (%d)", async (status) => {
    await keepMany(store, 5);
    const bad = await store.keep({ ...snag(), payload: { kind: "snag", text: "bad" } });
    await keepMany(store, 6);
    service.fault = refuse("bad", status);
    expect((await sync.round()).state).toBe("outdated");
    expect(service.stored.size).toBe(11);
    const waiting = (await store.ops()).filter(({ state }) => state === "waiting");
    expect(waiting.map(({ op }) => op)).toEqual([bad.op]);
    const [later] = await keepMany(store, 1);
    sync.pass(60 * 60_000);
    await sync.round();
    expect(service.stored.get(later!.opId)).toEqual(later);
    service.fault = () => undefined;
    sync.pass(60 * 60_000);
    expect((await sync.round()).state).toBe("settled");
    expect(service.stored.get(bad.op.opId)).toEqual(bad.op);
    expect(service.stored.size).toBe(13);
  });

  test("a body that is too large goes in smaller ones", async () => {
    await keepMany(store, 40);
    service.fault = onOps((call) => (opsOf(call).length > 12 ? problem(413) : undefined));
    expect((await sync.round()).state).toBe("settled");
    expect(service.batches()).toEqual([40, 20, 10, 10, 10, 10]);
  });
});
