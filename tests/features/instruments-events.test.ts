// What happens to instruments between calibrations. An overload retires a torque tool until it is
// checked again: ISO 6789-1:2017 5.3, from memory; the rest is common practice, no source.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { nextOf } from "../support/reading.ts";
import { pointersOf } from "../support/replies.ts";
import { torqueWork } from "../support/torque-work.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const NINE = "2026-11-25T09:00:00+00:00";
const TEN = "2026-11-25T10:00:00+00:00";
const ELEVEN = "2026-11-25T11:00:00+00:00";

let service: TestService;
let work: ReturnType<typeof torqueWork>;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  work = torqueWork(service);
});
afterAll(() => service.stop());

const eventsOf = async (id: string, query = "") =>
  (await work.office.get(`/api/v1/instruments/${id}/events${query}`)).body.items;

describe("events of an instrument", () => {
  test("are recorded with who and when, and read in the order of entry", async () => {
    const { id } = await work.tool();
    const overload = { kind: "overload", at: "2026-11-25T10:00:00+01:00", note: "Slipped off" };
    const reply = await work.record(id, overload, work.installer);
    expect(reply.status).toBe(201);
    const personId = service.firm.people.installer.id;
    expect(reply.body).toMatchObject({ ...overload, cycles: null, personId });
    await work.record(id, { kind: "note", at: NINE, note: "New handle" });
    await work.record(id, { kind: "used", at: NINE, cycles: 12 });
    const listed = await eventsOf(id);
    expect(listed.map(({ kind }: { kind: string }) => kind)).toEqual(["overload", "note", "used"]);
    expect(listed[0]).toEqual(reply.body);
    expect(await eventsOf(id, "?kind=used")).toMatchObject([{ cycles: 12 }]);
    const first = await work.office.get(`/api/v1/instruments/${id}/events?limit=2`);
    expect(first.body.items).toHaveLength(2);
    expect((await work.office.get(nextOf(first))).body).toMatchObject({
      items: [{ kind: "used" }],
      next: null,
    });
  });

  test.each([
    ["this very moment", { at: NOW.toISOString() }, 201, []],
    ["a moment later", { at: "2026-11-25T17:00:00.001Z" }, 422, ["/body/at"]],
    ["the first day that is taken", { at: "2000-01-01T00:00:00Z" }, 201, []],
    ["the day before", { at: "1999-12-31T23:59:59Z" }, 422, ["/body/at"]],
    ["a time without offset", { at: "2026-11-25T09:00:00" }, 422, ["/body/at"]],
    ["a kind that is none", { kind: "lost" }, 422, ["/body/kind"]],
    ["an overload with cycles", { cycles: 3 }, 422, ["/body/cycles"]],
    ["a use without cycles", { kind: "used" }, 422, ["/body/cycles"]],
    ["a use of no cycle", { kind: "used", cycles: 0 }, 422, ["/body/cycles"]],
    ["a use of one cycle", { kind: "used", cycles: 1 }, 201, []],
    ["a use of 100,000 cycles", { kind: "used", cycles: 100_000 }, 201, []],
    ["a use of more", { kind: "used", cycles: 100_001 }, 422, ["/body/cycles"]],
    ["a note without words", { kind: "note" }, 422, ["/body/note"]],
    ["a field that is none", { weather: "wet" }, 422, ["/body"]],
  ])("%s: taken or refused by the pointer", async (_what, fields, status, pointers) => {
    const { id } = await work.tool();
    const reply = await work.record(id, { kind: "overload", at: NINE, ...fields });
    expect([reply.status, status === 201 ? [] : pointersOf(reply)]).toEqual([status, pointers]);
    expect(await eventsOf(id)).toHaveLength(status === 201 ? 1 : 0);
  });

  test("of use are those of torque tools", async () => {
    const { id } = await work.tool({ instrumentClass: "multimeter" });
    const reply = await work.record(id, { kind: "used", at: NINE, cycles: 3 });
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/kind"]]);
  });

  test("happen once, however often they are sent", async () => {
    const { id } = await work.tool();
    const send = () =>
      work.record(id, { kind: "used", at: NINE, cycles: 40 }).set("idempotency-key", `used-${id}`);
    const [one, two] = [await send(), await send()];
    expect(two.body).toEqual(one.body);
    expect(two.headers["idempotency-replayed"]).toBe("true");
    expect((await work.read(id)).cyclesSinceCalibration).toBe(40);
  });

  test("of another firm's instrument are not there", async () => {
    const { id } = await work.tool();
    const theirs = service.as((await service.addFirm("birch")).people.office);
    expect((await theirs.get(`/api/v1/instruments/${id}/events`)).status).toBe(404);
    expect((await work.record(id, { kind: "overload", at: NINE }, theirs)).status).toBe(404);
    expect((await theirs.get(`/api/v1/instruments/${id}/affected-readings`)).status).toBe(404);
    expect((await theirs.post(`/api/v1/instruments/${id}/re-test-jobs`).send({})).status).toBe(404);
  });

  test.each([
    ["owner", 201],
    ["office", 201],
    ["manager", 201],
    ["installer", 403],
    ["auditor", 403],
  ] as const)("a passed recheck by %s: %d", async (role, status) => {
    const { id } = await work.tool();
    const client = service.as(service.firm.people[role]);
    const reply = await work.record(id, { kind: "recheck-passed", at: NINE }, client);
    expect(reply.status).toBe(status);
  });
});

describe("an overloaded tool is out of use from that moment", () => {
  test("and back with a passed recheck; verdicts say the way out", async () => {
    const { id, reference } = await work.tool();
    const { jobId } = await work.place();
    await work.record(id, { kind: "overload", at: TEN }, work.installer);
    expect(await work.codes(jobId, { tool: id, takenAt: NINE })).toEqual(["passed"]);
    const [refused] = await work.submit(jobId, { tool: id, takenAt: TEN });
    expect(refused?.verdict).toMatchObject({
      outcome: "stale-instrument",
      code: "instrument-overloaded",
      sentence: expect.stringContaining(`${reference} was overloaded on 2026-11-25 at 10:00`),
      toClear: expect.stringContaining("enter the recheck"),
    });
    expect(await work.read(id)).toMatchObject({
      fitNow: false,
      reason: { code: "instrument-overloaded", toClear: expect.stringContaining("recheck") },
    });
    await work.record(id, { kind: "recheck-passed", at: ELEVEN });
    expect(await work.codes(jobId, { tool: id, takenAt: ELEVEN })).toEqual(["passed"]);
    expect(await work.read(id)).toMatchObject({ fitNow: true, reason: null });
  });

  test.each([
    ["2026-11-24", false],
    ["2026-11-25", true],
  ])("calibrated on %s after a drop on the 24th: fit %s", async (day, isFit) => {
    const { id } = await work.tool();
    await work.record(id, { kind: "dropped", at: "2026-11-24T10:00:00+00:00" });
    await work.calibrate(id, day);
    expect((await work.read(id)).fitNow).toBe(isFit);
  });
});

describe("instruments that are not fit", () => {
  test("are the firm's list with fit=false, page by page", async () => {
    const other = await service.addFirm("cedar");
    const client = torqueWork({ ...service, firm: other });
    const sound = await client.tool();
    const dropped = await client.tool();
    await client.record(dropped.id, { kind: "dropped", at: NINE });
    const spent = await client.tool({ intervalCycles: 10 });
    await client.record(spent.id, { kind: "used", at: NINE, cycles: 10 });
    const never = await client.tool({}, null);
    const lapsed = await client.tool({ intervalMonths: 6 });
    const ids = async (query: string) => {
      const reply = await client.office.get(`/api/v1/instruments?${query}`);
      return { reply, ids: reply.body.items.map((row: { id: string }) => row.id) };
    };
    const unfit = [dropped.id, spent.id, never.id, lapsed.id];
    expect((await ids("fit=false")).ids).toEqual(unfit);
    expect((await ids("fit=true")).ids).toEqual([sound.id]);
    const first = await ids("fit=false&limit=3");
    expect(first.ids).toEqual(unfit.slice(0, 3));
    expect((await client.office.get(nextOf(first.reply))).body).toMatchObject({
      items: [{ id: lapsed.id, reason: { code: "instrument-out-of-calibration" } }],
      next: null,
    });
    expect((await client.office.get("/api/v1/instruments?fit=perhaps")).status).toBe(422);
  });
});
