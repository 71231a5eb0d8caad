// When it is sent, and when the service is left alone. RFC 9110, 10.2.3 for Retry-After.
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { HoldOff } from "../../src/tablet/sync/hold-off.ts";
import { TICK_MS } from "../../src/tablet/sync/sync.ts";
import { ProtocolServer, problem } from "./support/protocol-server.ts";
import { type TestSync, testSync } from "./support/test-sync.ts";
import { DAY_MS, keepMany, snag, TestTablet } from "./support/test-tablet.ts";

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
afterEach(async () => {
  sync.stop();
  await tablet.switchOff();
});

/** The next time that sending comes to rest. */
const rest = (): Promise<void> =>
  new Promise((resolve) => {
    const stop = sync.onChange(() => {
      if (sync.status().state === "sending") return;
      stop();
      resolve();
    });
  });
const rounds = (): number =>
  service.pathsOf("GET").filter((path) => path.endsWith("/session")).length;

describe("sending by itself", () => {
  test("starts at once, after a fact was kept, with signal back, and now and then", async () => {
    let resting = rest();
    sync.start();
    await resting;
    expect(rounds()).toBe(1);
    resting = rest();
    await store.keep(snag());
    await resting;
    expect(service.stored.size).toBe(1);
    resting = rest();
    sync.comeBack();
    await resting;
    expect(rounds()).toBe(3);
    resting = rest();
    sync.pass(TICK_MS - 1);
    sync.pass(1);
    await resting;
    resting = rest();
    sync.pass(TICK_MS);
    await resting;
    expect(rounds()).toBe(5);
  });

  test("ends when it is stopped", async () => {
    const resting = rest();
    sync.start();
    await resting;
    sync.stop();
    sync.pass(TICK_MS);
    sync.comeBack();
    await store.keep(snag());
    expect((await sync.round()).state).toBe("settled");
    expect(rounds()).toBe(2);
  });
});

describe("Retry-After", () => {
  const onlyOps = (answer: () => Response) => {
    service.fault = ({ path }) => (path.endsWith("/ops") ? answer() : undefined);
  };

  test.each([
    ["seconds", () => problem(503, "", { "retry-after": "90" })],
    [
      "a date, by the server's clock however wrong the tablet's is",
      () =>
        problem(429, "", {
          date: "Wed, 25 Nov 2026 10:00:00 GMT",
          "retry-after": "Wed, 25 Nov 2026 10:01:30 GMT",
        }),
    ],
  ])("in %s is honoured, also when a person asks", async (_form, answer) => {
    tablet.clockOffByMs = 3653 * DAY_MS;
    await keepMany(store, 1);
    onlyOps(answer);
    expect(await sync.round()).toMatchObject({ state: "busy", retryAt: expect.any(String) });
    onlyOps(() => problem(500));
    sync.pass(89_999);
    expect((await sync.round()).state).toBe("busy");
    expect(service.batches()).toEqual([1]);
    sync.pass(1);
    await sync.round();
    expect(service.batches()).toEqual([1, 1]);
  });

  test("of a year is not believed for longer than an hour", async () => {
    await keepMany(store, 1);
    onlyOps(() => problem(503, "", { "retry-after": "31536000" }));
    await sync.round();
    service.fault = () => undefined;
    sync.pass(3_599_999);
    await sync.round();
    expect(service.stored.size).toBe(0);
    sync.pass(1);
    await sync.round();
    expect(service.stored.size).toBe(1);
  });
});

describe("waiting after faults", () => {
  const fault = { state: "busy", sentence: "" } as const;

  test("doubles from two seconds to five minutes, and half of it is chance", () => {
    const waits = [0, 1].map((chance) => {
      const holdOff = new HoldOff();
      return Array.from({ length: 10 }, () => {
        holdOff.failed(fault, 0, chance);
        return holdOff.waitMs(0, false) / 1000;
      });
    });
    expect(waits[1]).toEqual([2, 4, 8, 16, 32, 64, 128, 256, 300, 300]);
    expect(waits[0]).toEqual([1, 2, 4, 8, 16, 32, 64, 128, 150, 150]);
  });

  test("is over once a round passed, is none without signal, and none when a person asks", () => {
    const holdOff = new HoldOff();
    holdOff.failed(fault, 0, 1);
    expect(holdOff.waitMs(0, true)).toBe(0);
    holdOff.passed();
    expect(holdOff.waitMs(0, false)).toBe(0);
    holdOff.failed({ state: "offline", sentence: "" }, 0, 1);
    expect(holdOff.waitMs(0, false)).toBe(0);
  });
});

describe("one sender at a time", () => {
  test("rounds asked for while one runs come after it, and are one", async () => {
    await keepMany(store, 3);
    const asked: Promise<unknown>[] = [];
    service.fault = ({ path }) => {
      if (path.endsWith("/ops")) asked.push(sync.round(), sync.round(), sync.round());
      return undefined;
    };
    await sync.round();
    await Promise.all(asked);
    expect(rounds()).toBe(2);
    expect(service.batches()).toEqual([3]);
  });

  test("two tabs take turns where the browser has locks", async () => {
    const other = await tablet.open();
    await keepMany(store, 3);
    let inside = 0;
    let most = 0;
    const locks = turnTaking();
    const fetch = async (path: string, init: RequestInit): Promise<Response> => {
      inside += 1;
      most = Math.max(most, inside);
      await new Promise(setImmediate);
      inside -= 1;
      return service.fetch(path, init);
    };
    const tabs = [store, other].map((tab) => testSync(tablet, tab, fetch, { locks }));
    const states = await Promise.all(tabs.map((tab) => tab.round()));
    expect(states.map(({ state }) => state)).toEqual(["settled", "settled"]);
    expect(most).toBe(1);
    expect(service.batches()).toEqual([3]);
  });
});

/** Web Locks as far as sending uses them: one holder, the others wait. */
function turnTaking(): Pick<LockManager, "request"> {
  let turn: Promise<unknown> = Promise.resolve();
  const request = (_name: string, _options: unknown, work: (lock: object) => unknown) => {
    const own = turn.then(() => work({}));
    turn = own;
    return own;
  };
  return { request: request as LockManager["request"] };
}
