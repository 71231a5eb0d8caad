import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { nextNumber } from "../support/stock.ts";

// 23:30 on 1 July in UTC is half past midnight on 2 July where the firm is (Europe/London, UTC+1).
const NOW = new Date("2026-07-01T23:30:00Z");
const TODAY = "2026-07-02";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);

const body = (fields: object = {}) => ({
  reference: `IT-${nextNumber()}`,
  name: "Insulation tester, van 2",
  instrumentClass: "insulation-tester",
  serial: "4471-0932",
  ...fields,
});
const add = (fields: object = {}) => office().post("/api/v1/instruments").send(body(fields));

async function addInstrument(fields: object = {}): Promise<{ id: string; reference: string }> {
  const reply = await add(fields);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body;
}

const calibrate = (id: string, fields: object = {}) =>
  office()
    .post(`/api/v1/instruments/${id}/calibrations`)
    .send({ calibratedOn: "2026-01-15", passed: true, certificate: "CAL-26-1187", ...fields });
const read = async (id: string) => (await office().get(`/api/v1/instruments/${id}`)).body;

describe("a calibration", () => {
  // A day that the month lacks becomes its last day: Regulation 1182/71 Art. 3(2)(c), from memory.
  test.each([
    ["2026-01-15", 12, "2027-01-15"],
    ["2025-08-31", 6, "2026-02-28"],
    ["2024-02-29", 12, "2025-02-28"],
    ["2025-12-31", 2, "2026-02-28"],
  ])("of %s with an interval of %d months is due on %s", async (calibratedOn, months, dueOn) => {
    const { id } = await addInstrument({ intervalMonths: months });
    const reply = await calibrate(id, { calibratedOn });
    expect([reply.status, reply.body.dueOn]).toEqual([201, dueOn]);
    expect(await read(id)).toMatchObject({ calibratedOn, dueOn });
  });

  test("has the due date of its certificate where that is given", async () => {
    const { id } = await addInstrument();
    expect((await calibrate(id, { dueOn: "2026-09-30" })).body.dueOn).toBe("2026-09-30");
    expect((await read(id)).dueOn).toBe("2026-09-30");
  });

  test.each([
    ["on the firm's today", { calibratedOn: TODAY }, 201, undefined],
    ["on the firm's tomorrow", { calibratedOn: "2026-07-03" }, 422, "/body/calibratedOn"],
    ["due a day later", { dueOn: "2026-01-16" }, 201, undefined],
    ["due on its own day", { dueOn: "2026-01-15" }, 422, "/body/dueOn"],
    ["due within ten years", { dueOn: "2036-01-15" }, 201, undefined],
    ["due after ten years", { dueOn: "2036-01-16" }, 422, "/body/dueOn"],
    ["on a day that is none", { calibratedOn: "2026-02-30" }, 422, "/body/calibratedOn"],
    ["without a certificate", { certificate: " " }, 422, "/body/certificate"],
  ])("%s is taken or refused by its pointer", async (_what, fields, status, pointer) => {
    const { id } = await addInstrument();
    const reply = await calibrate(id, fields);
    expect(reply.status).toBe(status);
    if (pointer) expect(pointersOf(reply)).toEqual([pointer]);
    expect((await read(id)).calibrations).toHaveLength(status === 201 ? 1 : 0);
  });

  test("that failed leaves the instrument without a due date, until one passes", async () => {
    const { id } = await addInstrument();
    await calibrate(id, { calibratedOn: "2026-01-15" });
    await calibrate(id, { calibratedOn: "2026-06-01", passed: false });
    expect(await read(id)).toMatchObject({ calibratedOn: "2026-06-01", dueOn: null });
    await calibrate(id, { calibratedOn: "2026-06-20" });
    const { dueOn, calibrations } = await read(id);
    expect(dueOn).toBe("2027-06-20");
    expect(calibrations.map((entry: { calibratedOn: string }) => entry.calibratedOn)).toEqual([
      "2026-06-20",
      "2026-06-01",
      "2026-01-15",
    ]);
  });

  test("entered late does not count before a newer one", async () => {
    const { id } = await addInstrument();
    await calibrate(id, { calibratedOn: "2026-06-01" });
    await calibrate(id, { calibratedOn: "2025-06-01" });
    expect((await read(id)).dueOn).toBe("2027-06-01");
  });

  test("that is due before a day, or missing, or failed, is found by dueBefore", async () => {
    const loop = { instrumentClass: "loop-tester" };
    const due = await addInstrument(loop);
    const later = await addInstrument(loop);
    const never = await addInstrument(loop);
    const failed = await addInstrument(loop);
    await calibrate(due.id, { dueOn: "2026-08-31" });
    await calibrate(later.id, { dueOn: "2026-09-01" });
    await calibrate(failed.id, { dueOn: "2026-12-01", passed: false });
    const ids = async (query: string): Promise<string[]> =>
      (
        await office().get(`/api/v1/instruments?instrumentClass=loop-tester${query}`)
      ).body.items.map((item: { id: string }) => item.id);
    expect(await ids("")).toEqual([due.id, later.id, never.id, failed.id]);
    expect(await ids("&dueBefore=2026-09-01")).toEqual([due.id, never.id, failed.id]);
    expect(await ids("&dueBefore=2026-08-31")).toEqual([never.id, failed.id]);
  });

  test("is entered once for one Idempotency-Key", async () => {
    const { id } = await addInstrument();
    const send = () => calibrate(id).set("idempotency-key", "calibration-4711");
    const replies = await Promise.all([send(), send()]);
    expect(replies.map(({ status }) => status)).toEqual([201, 201]);
    expect((await read(id)).calibrations).toHaveLength(1);
  });
});
