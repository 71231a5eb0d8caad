// The list of the day as the tablet knows it without signal: also visits whose packet it does not
// have, and why not.
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { TabletVisit } from "../../src/features/tablet/schemas.ts";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { packetOf } from "./support/older-layouts.ts";
import { type Fault, ProtocolServer, problem } from "./support/protocol-server.ts";
import { testSync } from "./support/test-sync.ts";
import { JOB_ID, TestTablet } from "./support/test-tablet.ts";

const OTHER_ID = "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a04";
let tablet: TestTablet;
let service: ProtocolServer;
let store: TabletStore;
beforeEach(async () => {
  tablet = new TestTablet();
  service = new ProtocolServer();
  store = await tablet.open();
});
afterEach(() => tablet.switchOff());

const visit = (visitId: string, jobId: string, packetVersion = "v1") =>
  ({ visitId, jobId, packetVersion, title: `Visit ${visitId}` }) as TabletVisit;

function list(...visits: TabletVisit[]): void {
  service.day = visits;
  service.dayVersion += 1;
}

const round = (fault: Fault = () => undefined) => {
  service.fault = fault;
  return testSync(tablet, store, service.fetch).round();
};

const onPackets =
  (reply: () => Response | Promise<Response>): Fault =>
  ({ path }) =>
    path.includes("/packets/") ? reply() : undefined;

async function reopened(): Promise<TabletStore> {
  await tablet.switchOff();
  store = await tablet.open();
  return store;
}

test("nothing is listed before the first list", async () => {
  expect(await store.visits()).toEqual([]);
});

test("every visit is listed in the list's order, also after a restart", async () => {
  service.packets.set(JOB_ID, packetOf("v1"));
  const visits = [visit("a", OTHER_ID), visit("b", JOB_ID), visit("c", OTHER_ID)];
  list(...visits);
  await round(({ path }) =>
    path.endsWith(OTHER_ID) ? Promise.reject(new TypeError("fetch failed")) : undefined,
  );
  expect(await (await reopened()).visits()).toEqual(visits);
});

test("a packet fetched for a job with two visits is shown with the first", async () => {
  service.packets.set(JOB_ID, packetOf("v1"));
  list(visit("a", JOB_ID), visit("b", JOB_ID));
  await round();
  expect((await store.packet(JOB_ID))?.visit?.visitId).toBe("a");
});

test("a visit taken off the list is listed no more", async () => {
  list(visit("a", JOB_ID), visit("b", OTHER_ID));
  await round();
  list(visit("b", OTHER_ID));
  await round();
  expect((await store.visits()).map(({ visitId }) => visitId)).toEqual(["b"]);
});

describe("why a packet is not there", () => {
  const told = async (): Promise<(string | undefined)[]> =>
    (await store.visits()).map((one) => one.problem);

  test.each<[string, () => Response | Promise<Response>, RegExp | undefined]>([
    ["no signal", () => Promise.reject(new TypeError("fetch failed")), undefined],
    ["a busy service", () => problem(503), undefined],
    ["a job that is gone", () => problem(404, "There is no such job."), /this job is gone/],
    ["a refusal", () => problem(422, "The plan has no stages."), /^The plan has no stages\.$/],
    [
      "a packet of a newer kind",
      () => Response.json({ schema: "packet/9", job: { id: JOB_ID }, version: "v1" }),
      /newer version of this page/,
    ],
  ])("%s is told where the service said so", async (_what, reply, words) => {
    list(visit("a", JOB_ID));
    await round(onPackets(reply));
    const [sentence] = await told();
    if (words === undefined) expect(sentence).toBeUndefined();
    else expect(sentence).toMatch(words);
  });

  test("stays told without signal, and is told no more once the packet came", async () => {
    list(visit("a", JOB_ID), visit("b", OTHER_ID));
    await round(onPackets(() => problem(422, "Not now.")));
    await reopened();
    await round(() => Promise.reject(new TypeError("fetch failed")));
    expect(await told()).toEqual(["Not now.", "Not now."]);
    service.packets.set(JOB_ID, packetOf("v1"));
    await round(({ path }) => (path.endsWith(OTHER_ID) ? problem(422, "Not now.") : undefined));
    expect(await told()).toEqual([undefined, "Not now."]);
  });

  test("is told no more once the list names another version that is here already", async () => {
    service.packets.set(JOB_ID, packetOf("v1"));
    list(visit("a", JOB_ID, "v1"));
    await round();
    list(visit("a", JOB_ID, "v2"));
    await round(onPackets(() => problem(422, "Not now.")));
    expect(await told()).toEqual(["Not now."]);
    list(visit("a", JOB_ID, "v1"));
    await round();
    expect(await told()).toEqual([undefined]);
  });
});
