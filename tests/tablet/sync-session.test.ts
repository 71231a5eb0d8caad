// Who may send: sessions that ran out, and tablets that people of two firms use.
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { PERSON, ProtocolServer, page, problem } from "./support/protocol-server.ts";
import { type TestSync, testSync } from "./support/test-sync.ts";
import { keepMany, TestTablet } from "./support/test-tablet.ts";

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

const REFRESH = "/api/v1/session/refresh";
const refreshes = (): number => service.pathsOf("POST").filter((path) => path === REFRESH).length;

describe("a session that ran out", () => {
  test("is renewed once, and the round goes on", async () => {
    await keepMany(store, 2);
    service.signedIn = false;
    expect((await sync.round()).state).toBe("settled");
    expect(refreshes()).toBe(1);
    expect(service.stored.size).toBe(2);
  });

  test("and cannot be renewed: sign in, nothing is lost, and it goes on", async () => {
    await keepMany(store, 2);
    service.signedIn = false;
    service.canRefresh = false;
    expect(await sync.round()).toMatchObject({
      state: "sign-in",
      sentence: "The session has ended. Sign in again. What is kept here is not lost.",
    });
    expect(refreshes()).toBe(1);
    expect(await store.counts()).toMatchObject({ waiting: 2 });
    service.fault = ({ method, path }) => {
      if (method !== "POST" || path !== "/api/v1/session") return undefined;
      service.signedIn = true;
      const body = JSON.stringify({ accessToken: "a", person: PERSON });
      return new Response(body, { status: 201, headers: { "content-type": "application/json" } });
    };
    const signedIn = await sync.signIn("ada@alder.example", "a pass phrase");
    expect(signedIn).toEqual({ ok: true, profile: PERSON });
    expect((await sync.round()).state).toBe("settled");
    expect(service.stored.size).toBe(2);
  });

  test("in the middle of a round is renewed there", async () => {
    await keepMany(store, 60);
    let batches = 0;
    service.fault = ({ path }) => {
      if (!path.endsWith("/ops")) return undefined;
      batches += 1;
      if (batches === 2) service.signedIn = false;
      return undefined;
    };
    expect((await sync.round()).state).toBe("settled");
    expect(service.stored.size).toBe(60);
    expect(refreshes()).toBe(1);
  });
});

describe("somebody of another firm", () => {
  const other = { ...PERSON, firmId: "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7aee" };

  test("signed in on the tablet gets nothing of what the firm's people kept", async () => {
    await keepMany(store, 2);
    service.person = other;
    const status = await sync.round();
    expect(status.state).toBe("sign-in");
    expect(status.sentence).toContain("another firm");
    expect(service.batches()).toEqual([]);
    expect(await store.counts()).toMatchObject({ waiting: 2 });
  });

  test("whose session is found when ours is renewed gets nothing either", async () => {
    await keepMany(store, 2);
    service.signedIn = false;
    service.person = other;
    expect((await sync.round()).state).toBe("sign-in");
    expect(service.batches()).toEqual([]);
  });
});

describe("signing in", () => {
  test.each([
    ["a wrong password", () => problem(401, "Address or password is wrong."), "is wrong"],
    ["too many tries", () => problem(429), "tried again"],
    ["a sign-on page", () => page(), "network's own page"],
    ["a field that is not right", () => problem(422, "/body/email: Invalid"), "/body/email"],
  ])("with %s says what is wrong", async (_what, answer, words) => {
    service.fault = answer;
    const outcome = await sync.signIn("ada@alder.example", "x");
    expect(outcome).toMatchObject({ ok: false, problem: expect.stringContaining(words) });
  });

  test("without signal says that it needs some once", async () => {
    service.fault = () => Promise.reject(new TypeError("fetch failed"));
    const outcome = await sync.signIn("ada@alder.example", "x");
    expect(outcome).toMatchObject({ ok: false, problem: expect.stringContaining("no signal") });
  });
});
