import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "../support/app.ts";
import { pointers } from "../support/reading.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planVersionId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planVersionId } = await startWork());
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const newJob = () => rows.job(siteId, planVersionId);
const book = async (body: object, jobId?: string) =>
  office()
    .post(`/api/v1/jobs/${jobId ?? (await newJob())}/visits`)
    .send(body);
let crewCount = 0;
async function newCrew(names = ["Bo Ash", "Cy Elm"]) {
  crewCount += 1;
  const personIds: string[] = [];
  for (const name of names) personIds.push(await rows.person(name));
  const name = `Crew ${crewCount}`;
  return { id: await rows.crew(name, personIds), name, personIds };
}
const morning = { startsAt: "2026-11-25T08:00:00+00:00", endsAt: "2026-11-25T12:00:00+00:00" };
async function bookingCount(visitId: string): Promise<number> {
  const { firmId } = service.firm;
  return inFirm(service.db, firmId, (tx) => tx.visitBooking.count({ where: { firmId, visitId } }));
}
describe("booking a visit", () => {
  test("holds the crew, each of its active people and the instruments for the hours", async () => {
    const away = await rows.person("Al Away", { active: false });
    const people = [await rows.person("Bo Ash"), away];
    const crewId = await rows.crew("North crew", people);
    const instrumentId = await rows.instrument("Loop tester");
    const reply = await book({ crewId, ...morning, instrumentIds: [instrumentId], note: "Gate" });
    expect(reply.status).toBe(201);
    expect(reply.body).toMatchObject({
      crew: { id: crewId, name: "North crew" },
      people: [{ id: people[0], name: "Bo Ash" }],
      instruments: [{ id: instrumentId, name: "Loop tester", calibrationDueOn: null }],
      startsAt: "2026-11-25T08:00:00.000Z",
      endsAt: "2026-11-25T12:00:00.000Z",
      timeZone: "Europe/London",
      state: "booked",
      note: "Gate",
    });
    expect(await bookingCount(reply.body.id)).toBe(3);
    const read = await service
      .as(service.firm.people.installer)
      .get(reply.headers.location as string);
    expect([read.body, read.headers.etag]).toEqual([reply.body, '"1"']);
  });

  test("shows until when the instruments it takes along are in calibration", async () => {
    const { firmId } = service.firm;
    const { id: crewId } = await newCrew();
    const instrumentId = await rows.instrument("Torque wrench");
    const calibration = (on: string, due: string, passed: boolean) => ({
      firmId,
      id: uuidv7(),
      instrumentId,
      calibratedOn: new Date(on),
      dueOn: new Date(due),
      passed,
      certificate: "K-1",
    });
    await inFirm(service.db, firmId, (tx) =>
      tx.calibration.createMany({
        data: [
          calibration("2025-02-01", "2026-02-01", true),
          calibration("2026-02-01", "2027-02-01", true),
          calibration("2026-10-01", "2027-10-01", false),
        ],
      }),
    );
    const { body } = await book({ crewId, ...morning, instrumentIds: [instrumentId] });
    expect(body.instruments).toMatchObject([{ calibrationDueOn: "2027-02-01" }]);
  });

  // 2027-03-28 and 2027-10-31: last Sundays of March and October, Directive 2000/84/EC; New York
  // changes on the second Sunday of March, 2027-03-14 (IANA time zone database).
  test.each([
    ["Europe/London", "2026-11-25", "08:30", "2026-11-25T08:30:00.000Z"],
    ["Europe/London", "2027-06-25", "08:30", "2027-06-25T07:30:00.000Z"],
    ["America/New_York", "2027-03-13", "08:30", "2027-03-13T13:30:00.000Z"],
    ["America/New_York", "2027-03-14", "08:30", "2027-03-14T12:30:00.000Z"],
  ])("takes a day and hours by the clocks in %s on %s", async (timeZone, day, from, startsAt) => {
    const site = await rows.site({ timeZone });
    const { id: crewId } = await newCrew();
    const local = { day, from, to: "12:00" };
    const reply = await book({ crewId, local }, await rows.job(site.id, planVersionId));
    expect([reply.status, reply.body.startsAt]).toEqual([201, startsAt]);
  });

  test.each([
    ["2027-03-28", "01:30", "/body/local/from"],
    ["2027-10-31", "01:30", "/body/local/from"],
  ])("asks for the offset where the clocks leave the hour open: %s %s", async (...row) => {
    const [day, from, pointer] = row;
    const { id: crewId } = await newCrew();
    const reply = await book({ crewId, local: { day, from, to: "06:00" } });
    expect([reply.status, pointers(reply)]).toEqual([422, [pointer]]);
    expect(reply.body.detail).toContain("offset");
  });

  test.each([
    ["08:15:00", 201],
    ["08:14:59", 422],
    ["22:00:00", 201],
    ["22:00:01", 422],
    ["08:00:00", 422],
    ["07:00:00", 422],
  ])("takes 15 minutes to 14 hours: 08:00 to %s is %d", async (end, status) => {
    const { id: crewId } = await newCrew();
    const endsAt = `2026-11-25T${end}+00:00`;
    const reply = await book({ crewId, startsAt: morning.startsAt, endsAt });
    expect(reply.status).toBe(status);
    if (status === 422) expect(pointers(reply)).toEqual(["/body/endsAt"]);
  });

  test("needs its hours told one way", async () => {
    const { id: crewId } = await newCrew();
    const local = { day: "2026-11-25", from: "08:00", to: "12:00" };
    for (const times of [{}, { startsAt: morning.startsAt }, { ...morning, local }]) {
      const reply = await book({ crewId, ...times });
      expect([reply.status, pointers(reply)]).toEqual([422, ["/body/startsAt"]]);
    }
    const backwards = await book({ crewId, local: { ...local, to: "07:00" } });
    expect(pointers(backwards)).toEqual(["/body/local/to"]);
    const early = await book({ crewId, ...morning, startsAt: "0026-11-25T08:00:00Z" });
    expect(pointers(early)).toEqual(["/body/startsAt"]);
  });

  test("refuses crews and instruments that cannot be sent, with their pointers", async () => {
    const { id: crewId, personIds } = await newCrew();
    const disbanded = await rows.crew("Gone", personIds, { active: false });
    const empty = await rows.crew("Empty", []);
    for (const id of [uuidv7(), disbanded, empty]) {
      const reply = await book({ crewId: id, ...morning });
      expect([reply.status, pointers(reply)]).toEqual([422, ["/body/crewId"]]);
    }
    const good = await rows.instrument("Clamp meter");
    const retired = await rows.instrument("Old meter", { retiredOn: new Date("2026-11-25") });
    const instrumentIds = [good, retired, uuidv7()];
    const reply = await book({ crewId, ...morning, instrumentIds });
    expect([reply.status, pointers(reply)]).toEqual([
      422,
      ["/body/instrumentIds/1", "/body/instrumentIds/2"],
    ]);
    const twice = await book({ crewId, ...morning, instrumentIds: [good, good] });
    expect(pointers(twice)).toEqual(["/body/instrumentIds"]);
    const many = Array.from({ length: 21 }, () => uuidv7());
    expect((await book({ crewId, ...morning, instrumentIds: many })).status).toBe(422);
  });

  test("is for an open job only", async () => {
    const { id: crewId } = await newCrew();
    const jobId = await newJob();
    await office().post(`/api/v1/jobs/${jobId}/cancellation`).send({ reason: "Sold the house" });
    const reply = await book({ crewId, ...morning }, jobId);
    expect([reply.status, reply.body.type]).toEqual([409, "/problems/job-not-open"]);
    expect((await book({ crewId, ...morning }, uuidv7())).status).toBe(404);
  });

  test("is made once for one Idempotency-Key", async () => {
    const { id: crewId } = await newCrew();
    const path = `/api/v1/jobs/${await newJob()}/visits`;
    const send = () =>
      office()
        .post(path)
        .set("idempotency-key", "visit-once-1")
        .send({ crewId, ...morning });
    const replies = await Promise.all([send(), send(), send()]);
    expect(replies.map(({ status }) => status)).toEqual([201, 201, 201]);
    expect(new Set(replies.map(({ body }) => body.id)).size).toBe(1);
  });
});
