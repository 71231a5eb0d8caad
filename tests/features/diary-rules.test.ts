// What the diary knows beside visits: who is away, who is qualified, the hours, what comes round.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openRecurringInspections } from "../../src/runs/recurring-inspections.ts";
import type { TestService } from "../support/app.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planId: string;
let planVersionId: string;
beforeAll(async () => {
  ({ service, rows, siteId, planId, planVersionId } = await startWork());
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const owner = () => service.as(service.firm.people.owner);
async function crewOf(name: string) {
  const personId = await rows.person(name);
  return { crewId: await rows.crew(`Crew of ${name}`, [personId]), personId };
}
const onDay = (day: string) => ({ startsAt: `${day}T09:00:00Z`, endsAt: `${day}T11:00:00Z` });
const book = async (crewId: string, day: string) =>
  office()
    .post(`/api/v1/jobs/${await rows.job(siteId, planVersionId)}/visits`)
    .send({ crewId, ...onDay(day) });

describe("an absence", () => {
  test("keeps visits away and is refused over one, and frees the day when taken back", async () => {
    const { crewId, personId } = await crewOf("Ada Fell");
    const enter = (from: string, to: string) =>
      office().post("/api/v1/absences").send({ personId, from, to, reason: "leave" });
    const away = await enter("2026-12-07", "2026-12-08");
    expect([away.status, away.body.isWholeDays, away.body.to]).toEqual([201, true, "2026-12-08"]);
    const refused = await book(crewId, "2026-12-08");
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/person-absent"]);
    expect(JSON.stringify(refused.body)).toContain("Ada Fell");
    expect((await book(crewId, "2026-12-09")).status).toBe(201);
    const over = await enter("2026-12-09", "2026-12-09");
    expect([over.status, over.body.type]).toEqual([409, "/problems/double-booked"]);
    expect((await office().delete(`/api/v1/absences/${away.body.id}`)).status).toBe(204);
    expect((await book(crewId, "2026-12-08")).status).toBe(201);
  });
});

describe("a qualification that installations ask for", () => {
  test("is told with its end when a crew is sent without it", async () => {
    const { crewId, personId } = await crewOf("Bo Rill");
    const kind = await office().post("/api/v1/qualification-kinds").send({ name: "DC work" });
    expect(kind.status).toBe(201);
    const kindId = kind.body.id as string;
    const held = { personId, kindId, validFrom: "2026-01-01", validTo: "2026-12-14" };
    expect((await office().post("/api/v1/qualifications").send(held)).status).toBe(201);
    const asked = await owner()
      .post("/api/v1/qualification-requirements")
      .send({ jobKind: "install", kindId, askedOf: "everyone" });
    expect(asked.status, JSON.stringify(asked.body)).toBe(201);
    expect((await book(crewId, "2026-12-14")).status).toBe(201);
    const refused = await book(crewId, "2026-12-15");
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/not-qualified"]);
    expect(JSON.stringify(refused.body)).toContain("2026-12-14");
    const path = `/api/v1/qualification-requirements/${asked.body.id}`;
    expect((await owner().delete(path)).status).toBe(204);
    expect((await book(crewId, "2026-12-15")).status).toBe(201);
  });
});

describe("first free places", () => {
  test("begin with the hours, after what is booked, and can be booked as they are", async () => {
    const { crewId, personId } = await crewOf("Cy Moss");
    const week = [{ weekday: 3, from: "10:00", to: "15:00" }];
    const hours = `/api/v1/people/${personId}/working-hours`;
    const { etag } = (await owner().get(hours)).headers;
    const put = await owner()
      .put(hours)
      .set("if-match", etag as string)
      .send({ week });
    expect(put.status, JSON.stringify(put.body)).toBe(200);
    const jobId = await rows.job(siteId, planVersionId);
    const query = `crewId=${crewId}&from=2027-01-04&days=10&minutes=120`;
    const free = await office().get(`/api/v1/jobs/${jobId}/first-free?${query}`);
    expect(free.status, JSON.stringify(free.body)).toBe(200);
    const [first] = free.body.suggestions;
    // 2027-01-06 is the Wednesday (ISO 8601) of that week.
    expect([first.day, first.from]).toEqual(["2027-01-06", "10:00"]);
    const { startsAt, endsAt } = first;
    const booked = await office()
      .post(`/api/v1/jobs/${jobId}/visits`)
      .send({ crewId, startsAt, endsAt });
    expect(booked.status, JSON.stringify(booked.body)).toBe(201);
    const unplaced = await office().get("/api/v1/diary/unplaced?limit=100");
    expect(unplaced.body.items.map(({ id }: { id: string }) => id)).not.toContain(jobId);
    const diary = await office().get("/api/v1/diary?from=2027-01-04&to=2027-01-10&by=person");
    const row = diary.body.rows.find(({ id }: { id: string }) => id === personId);
    const visits = row.days.flatMap((day: { visits: { job: { id: string } }[] }) => day.visits);
    expect(visits.map(({ job }: { job: { id: string } }) => job.id)).toEqual([jobId]);
  });
});

describe("an inspection that comes round", () => {
  test("opens one job when its turn is near, however often the run comes by", async () => {
    const fields = { siteId, planId, title: "Yearly look-over", everyMonths: 12 };
    const started = await office()
      .post("/api/v1/recurring-inspections")
      .send({ ...fields, firstDueOn: "2027-02-01", horizonDays: 30 });
    expect(started.status, JSON.stringify(started.body)).toBe(201);
    const read = async () =>
      (await office().get(`/api/v1/recurring-inspections/${started.body.id}`)).body;
    const run = (day: string) =>
      openRecurringInspections(service.db, new Date(`${day}T12:00:00Z`), (error) => {
        throw error;
      });
    expect((await run("2027-01-01")).opened).toBe(0);
    const figures = await Promise.all([run("2027-01-02"), run("2027-01-02")]);
    expect(figures[0].opened + figures[1].opened).toBe(1);
    const after = await read();
    expect([after.lastJob.dueOn, after.nextDueOn]).toEqual(["2027-02-01", "2028-02-01"]);
    expect((await run("2027-01-03")).opened).toBe(0);
  });
});
