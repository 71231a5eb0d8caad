// By hand over gov.uk's list of bank holidays (from memory): 25 and 28 December 2026 and 1 January
// 2027 are off; the rule is that of Regulation (EEC, Euratom) No 1182/71, Articles 2 and 3.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const anyone = () => service.as(service.firm.people.auditor);

describe("business days", () => {
  const count = (body: object) =>
    anyone()
      .post("/api/v1/business-days")
      .send({ country: "GB", region: "ENG", ...body });

  test.each([
    ["2026-12-18", 4, "2026-12-24"],
    ["2026-12-18", 5, "2026-12-29"],
    ["2026-12-18", 10, "2027-01-06"],
    ["2026-12-29", -1, "2026-12-24"],
    ["2026-12-25", 0, "2026-12-29"],
    ["2026-04-02", 1, "2026-04-07"],
  ])("%s and %d of them in England is %s", async (from, days, date) => {
    const reply = await count({ from, days });
    expect([reply.status, reply.body.date]).toEqual([200, date]);
  });

  test("name the holidays that were left out, and where they come from", async () => {
    const reply = await count({ from: "2026-12-18", days: 10 });
    expect(reply.body.skipped.map(({ date }: { date: string }) => date)).toEqual([
      "2026-12-25",
      "2026-12-28",
      "2027-01-01",
    ]);
    expect(reply.body.weekend).toEqual([6, 7]);
    expect(reply.body.source).toContain("1182/71");
  });

  test("go round a weekend of Friday and Saturday", async () => {
    const body = { from: "2026-11-05", days: 1, country: "SA", region: undefined };
    expect((await count(body)).body.date).toBe("2026-11-08");
  });

  test.each([
    [{ from: "2026-02-30", days: 1 }, "/body/from"],
    [{ from: "2026-01-01", days: 1001 }, "/body/days"],
    [{ from: "2026-01-01", days: 1.5 }, "/body/days"],
    [{ from: "2069-06-01", days: 400 }, "/body/from"],
    [{ from: "2026-01-01", days: 1, region: "TX" }, "/body/region"],
  ])("are refused where they cannot be counted: %o", async (body, pointer) => {
    const reply = await count(body);
    expect([reply.status, pointersOf(reply)]).toEqual([422, [pointer]]);
  });

  test.each([1000, -1000])("reach %d days", async (days) => {
    const reply = await count({ from: "2035-06-15", days });
    expect(reply.status).toBe(200);
    expect(Math.sign(Number(reply.body.date.slice(0, 4)) - 2035)).toBe(Math.sign(days));
  });

  test("need a sign-in", async () => {
    expect((await service.anonymous.get("/api/v1/holidays?country=GB&year=2026")).status).toBe(401);
  });
});
