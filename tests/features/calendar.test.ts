import supertest from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { buildApp } from "../../src/app.ts";
import { inFirm } from "../../src/db/scope.ts";
import { openLog } from "../../src/web/log.ts";
import type { TestService } from "../support/app.ts";
import { readCalendar } from "../support/calendar.ts";
import { mailConfig } from "../support/smtp.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planVersionId: string;
let crewId: string;

/** The clock of the service stands at 20 November 2026, 09:00 UTC. */
beforeAll(async () => {
  ({ service, rows, siteId, planVersionId } = await startWork());
  crewId = await rows.crew("North crew", [service.firm.people.installer.id]);
});
afterAll(() => service.stop());

const installer = () => service.as(service.firm.people.installer);
const office = () => service.as(service.firm.people.office);
const API = "/api/v1/calendar-address";
const pathOf = (url: string) => new URL(url).pathname;
const makeAddress = async (who = installer()) => pathOf((await who.post(API)).body.url);
const feed = (path: string) => service.anonymous.get(path).set("host", "holdpoint.example");

async function book(day: string, from = "08:30", crew = crewId) {
  const jobId = await rows.job(siteId, planVersionId);
  const local = { day, from, to: "12:00" };
  const reply = await office()
    .post(`/api/v1/jobs/${jobId}/visits`)
    .send({ crewId: crew, local, note: "The key is under the stone" });
  expect(reply.status).toBe(201);
  return reply.body as { id: string; job: { id: string; reference: string } };
}
const eventsOf = (text: string) => readCalendar(text).events;

describe("a calendar address", () => {
  test("is made, shown once, read by anybody who has it, and ended", async () => {
    const none = await installer().get(API);
    expect(none.body).toEqual({ exists: false, createdAt: null, fetchedAt: null });
    const made = await installer().post(API);
    expect([made.status, made.headers["cache-control"]]).toEqual([201, "no-store"]);
    expect(made.body.url).toMatch(/\/calendar\/[A-Za-z0-9_-]{43}\.ics$/);
    const reply = await feed(pathOf(made.body.url));
    expect([reply.status, reply.headers["content-type"]]).toEqual([
      200,
      "text/calendar; charset=utf-8",
    ]);
    const now = await installer().get(API);
    expect(now.body).toMatchObject({ exists: true, fetchedAt: "2026-11-20T09:00:00.000Z" });
    expect(JSON.stringify(now.body)).not.toContain(made.body.url.slice(-47, -4));
    expect((await installer().delete(API)).status).toBe(204);
    expect((await installer().delete(API)).status).toBe(404);
    expect((await feed(pathOf(made.body.url))).status).toBe(404);
  });

  test("ends at once when another is made", async () => {
    const [first, second] = [await makeAddress(), await makeAddress()];
    expect((await feed(first)).status).toBe(404);
    expect((await feed(second)).status).toBe(200);
  });

  test("of a person who no longer signs in shows nothing", async () => {
    const { manager } = service.firm.people;
    const path = await makeAddress(service.as(manager));
    const active = (value: boolean) =>
      inFirm(service.db, service.firm.firmId, (tx) =>
        tx.person.updateMany({ where: { id: manager.id }, data: { active: value } }),
      );
    await active(false);
    expect((await feed(path)).status).toBe(404);
    await active(true);
    expect((await feed(path)).status).toBe(200);
  });

  const [unknown, long] = ["x".repeat(43), "x".repeat(44)];
  test.each([`${unknown}.ics`, ".ics", `${unknown}.txt`, `${long}.ics`])(
    "is not found by %s",
    async (file) => expect((await feed(`/calendar/${file}`)).status).toBe(404),
  );

  test("is kept as a hash alone, and opens no other table", async () => {
    const path = await makeAddress();
    const secret = path.slice("/calendar/".length, -4);
    const kept = await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.calendarAddress.findMany({}),
    );
    expect(JSON.stringify(kept)).not.toContain(secret);
    const seen = await service.db.prisma.$transaction(async (tx) => {
      await tx.$executeRaw`SELECT set_config('app.calendar_hash', ${kept[0]!.secretHash}, true)`;
      return [await tx.calendarAddress.count(), await tx.visit.count(), await tx.person.count()];
    });
    expect(seen).toEqual([1, 0, 0]);
  });

  test("does not get into the log", async () => {
    const lines: string[] = [];
    const logger = openLog("info", { write: (line: string) => void lines.push(line) });
    const jwtSecret = "a secret of forty characters for the tests";
    const app = await buildApp({ db: service.db, config: mailConfig({}), jwtSecret, logger });
    await app.ready();
    const path = await makeAddress();
    expect((await supertest(app.server).get(path)).status).toBe(200);
    expect((await supertest(app.server).get(`/calendar/${"y".repeat(43)}.ics`)).status).toBe(404);
    await app.close();
    expect(lines.length).toBeGreaterThan(3);
    expect(lines.join("")).toContain("/calendar/…");
    expect(lines.join("")).not.toContain(path.slice("/calendar/".length));
    expect(lines.join("")).not.toContain("yyyyyyyy");
  });
});

describe("a person's calendar", () => {
  test("holds the visits they are booked for, and follows their changes", async () => {
    const path = await makeAddress();
    const visit = await book("2026-11-26");
    const other = await rows.crew("South crew", [await rows.person("Cy Elm")]);
    await book("2026-11-26", "08:30", other);
    const [event, ...more] = eventsOf((await feed(path)).text);
    expect(more).toEqual([]);
    expect(event).toEqual({
      ...{ uid: visit.id, sequence: 0, status: "CONFIRMED" },
      ...{ summary: `${visit.job.reference} Practice job`, start: "2026-11-26T08:30:00.000Z" },
    });
    const { headers } = await office().get(`/api/v1/visits/${visit.id}`);
    await office()
      .patch(`/api/v1/visits/${visit.id}`)
      .set("if-match", headers.etag!)
      .send({ local: { day: "2026-11-26", from: "09:00", to: "12:00" } });
    expect(eventsOf((await feed(path)).text)[0]).toMatchObject({
      ...{ uid: visit.id, sequence: 1, start: "2026-11-26T09:00:00.000Z" },
    });
    await office().post(`/api/v1/visits/${visit.id}/cancellation`);
    expect(eventsOf((await feed(path)).text)[0]).toMatchObject({
      ...{ uid: visit.id, sequence: 2, status: "CANCELLED" },
      summary: expect.stringMatching(/^Cancelled: /),
    });
  });

  test("says nothing of the customer, and links to the job instead", async () => {
    const path = await makeAddress();
    const visit = await book("2026-12-01");
    const text = (await feed(path)).text.replaceAll("\r\n ", "");
    expect(text).toContain("LOCATION:4 Kiln Lane\\, Thornbeck TB4 1AA");
    expect(text).toMatch(new RegExp(`URL:http://holdpoint.example/jobs/${visit.job.id}\\r`));
    expect(text).not.toContain("Ida Rook");
    expect(text).not.toContain("key is under");
  });

  test("is not sent again to a program that has it (RFC 9110 13.1.2)", async () => {
    const path = await makeAddress();
    const { headers } = await feed(path);
    const again = await feed(path).set("if-none-match", headers.etag!);
    expect([again.status, again.text]).toEqual([304, ""]);
    await book("2026-12-02");
    const changed = await feed(path).set("if-none-match", headers.etag!);
    expect(changed.status).toBe(200);
    expect(changed.headers.etag).not.toBe(headers.etag);
  });

  test.each([
    ["30 days back", "2026-10-21T09:00:00Z", true],
    ["longer ago", "2026-10-21T08:59:59Z", false],
    ["almost 180 days ahead", "2027-05-19T08:59:59Z", true],
    ["180 days ahead", "2027-05-19T09:00:00Z", false],
  ])("reaches to %s: %s", async (_where, startsAt, shown) => {
    const path = await makeAddress();
    const jobId = await rows.job(siteId, planVersionId);
    const endsAt = new Date(Date.parse(startsAt) + 3_600_000).toISOString();
    const reply = await office()
      .post(`/api/v1/jobs/${jobId}/visits`)
      .send({ crewId, startsAt, endsAt });
    const uids = eventsOf((await feed(path)).text).map(({ uid }) => uid);
    expect(uids.includes(reply.body.id)).toBe(shown);
  });
});

describe("the page of one's own calendar", () => {
  const page = (verb: "get" | "post", path = "/account/calendar") =>
    installer()[verb](path).set("accept", "text/html");

  test("makes an address, shows it in the answer alone, and ends it", async () => {
    await page("post", "/account/calendar/end");
    expect((await page("get")).text).toContain("You have no calendar address.");
    const made = await page("post");
    const [, address = ""] = /value="(http[^"]+\.ics)"/.exec(made.text) ?? [];
    expect((await feed(pathOf(address))).status).toBe(200);
    const later = await page("get");
    expect(later.text).not.toContain(".ics");
    expect(later.text).toContain("20 Nov 2026, 09:00");
    const ended = await page("post", "/account/calendar/end");
    expect([ended.status, ended.headers.location]).toEqual([303, "/account/calendar"]);
    expect((await feed(pathOf(address))).status).toBe(404);
  });
});
