import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { idsOf, nextOf, pointers } from "../support/reading.ts";
import { type Rows, rowsIn, SMALL_PLAN, startWork } from "../support/work-rows.ts";

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
/** Visits in Auckland and London around the night of 2026-12-10, by name. */
async function nightVisits(crewId: string): Promise<Record<string, string>> {
  const auckland = await rows.site({ timeZone: "Pacific/Auckland" });
  const visits: Record<string, string> = {};
  const put = async (name: string, from: string, to: string, jobId?: string) => {
    const times = { startsAt: `2026-12-${from}:00Z`, endsAt: `2026-12-${to}:00Z` };
    visits[name] = (await book({ crewId, ...times }, jobId)).body.id;
  };
  const far = () => rows.job(auckland.id, planVersionId);
  // 2026-12-10 10:00 to 11:00 UTC is 23:00 to midnight in Auckland (UTC+13, IANA database).
  await put("late there", "10T10:00", "10T11:00", await far());
  await put("next day there", "10T11:00", "10T12:00", await far());
  await put("night here", "10T23:00", "11T01:00");
  await put("morning here", "10T08:00", "10T09:00");
  return visits;
}

describe("the diary", () => {
  test("lists by the day of the site's own calendar, in order of start", async () => {
    const { id: crewId, personIds } = await newCrew();
    const visits = Object.entries(await nightVisits(crewId));
    const list = async (query: string) => {
      const reply = await office().get(`/api/v1/visits?crewId=${crewId}&${query}`);
      expect(reply.status).toBe(200);
      return idsOf(reply).map((id) => visits.find(([, visitId]) => visitId === id)?.[0]);
    };
    expect(await list("day=2026-12-10")).toEqual(["morning here", "late there", "night here"]);
    expect(await list("day=2026-12-11")).toEqual(["next day there", "night here"]);
    expect(await list("from=2026-12-11")).toEqual(["next day there", "night here"]);
    expect(await list("to=2026-12-10")).toEqual(["morning here", "late there", "night here"]);
    expect(await list("day=2026-12-12")).toEqual([]);
    expect(await list(`personId=${personIds[0]}`)).toHaveLength(4);
    expect(await list(`personId=${uuidv7()}`)).toEqual([]);
  });

  test("is read page by page", async () => {
    const { id: crewId } = await newCrew();
    const visits = await nightVisits(crewId);
    const first = await office().get(`/api/v1/visits?crewId=${crewId}&limit=3`);
    const second = await office().get(nextOf(first));
    expect([...idsOf(first), ...idsOf(second)]).toEqual([
      visits["morning here"],
      visits["late there"],
      visits["next day there"],
      visits["night here"],
    ]);
    expect(second.body.next).toBeNull();
  });

  test("lists a job's visits, cancelled ones when asked for", async () => {
    const { id: crewId } = await newCrew();
    const jobId = await newJob();
    const { body: kept } = await book({ crewId, ...morning }, jobId);
    const later = { startsAt: "2026-11-26T08:00:00Z", endsAt: "2026-11-26T12:00:00Z" };
    const { body: gone } = await book({ crewId, ...later }, jobId);
    await office().post(`/api/v1/visits/${gone.id}/cancellation`);
    const ids = async (query: string) =>
      idsOf(await office().get(`/api/v1/visits?jobId=${jobId}${query}`));
    expect(await ids("")).toEqual([kept.id]);
    expect(await ids("&state=cancelled")).toEqual([gone.id]);
  });

  test.each([
    ["day=2026-13-01", "day"],
    ["day=2026-11-25&from=2026-11-25", "day"],
    ["from=0001-01-01", "from"],
    ["cursor=x", "cursor"],
    ["crewId=7", "crewId"],
    ["person=7", ""],
  ])("refuses %s and points at it", async (query, name) => {
    const reply = await office().get(`/api/v1/visits?${query}`);
    const [pointer] = pointers(reply);
    expect([reply.status, pointer?.split("/").at(2) ?? ""]).toEqual([422, name]);
  });
});

describe("visits and who may", () => {
  test("are moved and cancelled by office, manager and owner, and read by all", async () => {
    const { id: crewId } = await newCrew();
    const { people } = service.firm;
    const { body: visit } = await book({ crewId, ...morning });
    const jobId = await newJob();
    for (const person of [people.installer, people.auditor]) {
      const client = service.as(person);
      expect((await client.get("/api/v1/visits")).status).toBe(200);
      expect((await client.post(`/api/v1/jobs/${jobId}/visits`).send({})).status).toBe(403);
      expect((await client.patch(`/api/v1/visits/${visit.id}`).send({})).status).toBe(403);
      expect((await client.post(`/api/v1/visits/${visit.id}/cancellation`)).status).toBe(403);
    }
    for (const person of [people.owner, people.manager]) {
      const reply = await service
        .as(person)
        .patch(`/api/v1/visits/${visit.id}`)
        .set("if-match", '"99"')
        .send({ note: "x" });
      expect(reply.status).toBe(412);
    }
  });

  test("of another firm are not there, nor are its crews and jobs", async () => {
    const other = await service.addFirm("birch");
    const theirs = service.as(other.people.office);
    const { id: crewId } = await newCrew();
    const jobId = await newJob();
    const { body: visit } = await book({ crewId, ...morning }, jobId);
    const path = `/api/v1/visits/${visit.id}`;
    expect((await theirs.get(path)).status).toBe(404);
    expect((await theirs.patch(path).set("if-match", '"1"').send({ note: "x" })).status).toBe(404);
    expect((await theirs.post(`${path}/cancellation`)).status).toBe(404);
    expect((await theirs.get(`/api/v1/visits?jobId=${jobId}`)).body.items).toEqual([]);
    const onOurs = await theirs.post(`/api/v1/jobs/${jobId}/visits`).send({ crewId, ...morning });
    expect(onOurs.status).toBe(404);
    const theirRows = rowsIn(service, other);
    const theirSite = await theirRows.site();
    const theirPlan = await theirRows.planVersion(SMALL_PLAN);
    const theirJob = await theirRows.job(theirSite.id, theirPlan.id);
    const withOurs = await theirs
      .post(`/api/v1/jobs/${theirJob}/visits`)
      .send({ crewId, ...morning });
    expect([withOurs.status, pointers(withOurs)]).toEqual([422, ["/body/crewId"]]);
  });
});
