import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { idsOf, nextOf, pointers } from "../support/reading.ts";
import { type Rows, rowsIn, SMALL_PLAN, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planId: string;
let planVersionId: string;
let modelId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planId, planVersionId, modelId } = await startWork());
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);
const open = (fields: object = {}) =>
  office()
    .post("/api/v1/jobs")
    .send({ siteId, kind: "install", title: "Two packs", planVersionId, ...fields });
async function newUnits(count: number): Promise<string[]> {
  const ids: string[] = [];
  for (let index = 0; index < count; index += 1) ids.push(await rows.unit(modelId));
  return ids;
}
interface Listed {
  siteId: string;
  customerId: string;
  attic: string;
  cellar: string;
  garage: string;
}

/** Three jobs at a site in New York, opened in this order; the last is cancelled. */
async function threeJobs(): Promise<Listed> {
  const site = await rows.site({ timeZone: "America/New_York" });
  const job = async (kind: string, title: string): Promise<string> =>
    (await open({ siteId: site.id, kind, title })).body.id;
  const attic = await job("survey", "Listed attic");
  const cellar = await job("inspection", "Listed cellar");
  const garage = await job("survey", "Garage");
  await office().post(`/api/v1/jobs/${garage}/cancellation`).send({ reason: "No room" });
  return { siteId: site.id, customerId: site.customerId, attic, cellar, garage };
}

async function listAt(listed: Listed, query: string): Promise<string[]> {
  const reply = await installer().get(`/api/v1/jobs?siteId=${listed.siteId}&${query}`);
  expect(reply.status).toBe(200);
  return idsOf(reply);
}

describe("the list of jobs", () => {
  test("is the newest first, by its filters, page by page", async () => {
    const listed = await threeJobs();
    const { attic, cellar, garage, customerId } = listed;
    const list = (query: string) => listAt(listed, query);
    expect(await list("")).toEqual([garage, cellar, attic]);
    expect(await list("kind=survey")).toEqual([garage, attic]);
    expect(await list("state=open")).toEqual([cellar, attic]);
    expect(await list("title=listed")).toEqual([cellar, attic]);
    expect(await list(`customerId=${customerId}&kind=inspection`)).toEqual([cellar]);
    expect(await list(`customerId=${uuidv7()}`)).toEqual([]);
    const first = await installer().get(`/api/v1/jobs?siteId=${listed.siteId}&limit=2`);
    expect(idsOf(first)).toEqual([garage, cellar]);
    const second = await installer().get(nextOf(first));
    expect(idsOf(second)).toEqual([attic]);
    const [{ reference }] = second.body.items;
    expect(await list(`reference=${reference.toLowerCase()}`)).toEqual([attic]);
  });

  test.each(["title=%00", "state=done", "day=2026-02-30", "siteId=x", "colour=red"])(
    "refuses the filter %s",
    async (query) => {
      const reply = await office().get(`/api/v1/jobs?${query}`);
      expect([reply.status, reply.body.type]).toEqual([422, "/problems/invalid-input"]);
    },
  );

  test("is by visits of a crew, and on a day of the site's own calendar", async () => {
    const listed = await threeJobs();
    const { attic, cellar } = listed;
    const list = (query: string) => listAt(listed, query);
    const north = await rows.crew("List north", [await rows.person("Bo Ash")]);
    const south = await rows.crew("List south", [await rows.person("Cy Elm")]);
    const book = async (jobId: string, crewId: string, from: string, to: string) => {
      const times = { startsAt: `2026-11-${from}:00Z`, endsAt: `2026-11-${to}:00Z` };
      const path = `/api/v1/jobs/${jobId}/visits`;
      return (
        await office()
          .post(path)
          .send({ crewId, ...times })
      ).body.id;
    };
    // 2026-11-26 02:00 UTC is 21:00 on the 25th in New York (UTC-5, IANA time zone database).
    await book(attic, north, "26T02:00", "26T04:00");
    const next = await book(attic, south, "24T14:00", "24T15:00");
    await book(cellar, north, "26T14:00", "26T15:00");
    expect(await list("day=2026-11-25")).toEqual([attic]);
    expect(await list("day=2026-11-26")).toEqual([cellar]);
    expect(await list(`crewId=${north}`)).toEqual([cellar, attic]);
    expect(await list(`crewId=${south}&day=2026-11-25`)).toEqual([]);
    const reply = await installer().get(`/api/v1/jobs?siteId=${listed.siteId}&crewId=${south}`);
    expect(reply.body.items).toMatchObject([{ id: attic, unitCount: 0, nextVisit: { id: next } }]);
  });
});

describe("jobs and who may", () => {
  test("are opened by office, owner and manager; installers capture serials", async () => {
    const { people } = service.firm;
    const fields = { siteId, kind: "survey", title: "By role", planVersionId };
    for (const role of ["owner", "office", "manager"] as const) {
      const reply = await service.as(people[role]).post("/api/v1/jobs").send(fields);
      expect(reply.status).toBe(201);
    }
    const { body: job } = await open();
    const path = `/api/v1/jobs/${job.id}`;
    const unitId = uuidv7();
    for (const role of ["installer", "auditor"] as const) {
      const client = service.as(people[role]);
      expect((await client.get(path)).status).toBe(200);
      const replies = [
        await client.post("/api/v1/jobs").send(fields),
        await client.patch(path).send({ title: "x" }),
        await client.post(`${path}/units`).send({ unitId }),
        await client.delete(`${path}/units/${unitId}`),
        await client.post(`${path}/cancellation`).send({ reason: "x" }),
      ];
      expect(replies.map(({ status }) => status)).toEqual([403, 403, 403, 403, 403]);
    }
    const auditor = service.as(people.auditor);
    const serial = await auditor.post(`${path}/serials`).send({ modelId, serial: "HN00000002" });
    expect(serial.status).toBe(403);
  });

  test("of another firm are not there, nor are their sites, plans and units", async () => {
    const other = await service.addFirm("birch");
    const theirs = service.as(other.people.office);
    const [unitId] = await newUnits(1);
    const { body: job } = await open();
    const path = `/api/v1/jobs/${job.id}`;
    expect((await theirs.get(path)).status).toBe(404);
    expect((await theirs.patch(path).set("if-match", '"1"').send({ title: "x" })).status).toBe(404);
    expect((await theirs.post(`${path}/units`).send({ unitId })).status).toBe(404);
    expect((await theirs.delete(`${path}/units/${unitId}`)).status).toBe(404);
    expect((await theirs.post(`${path}/cancellation`).send({ reason: "x" })).status).toBe(404);
    expect((await theirs.get("/api/v1/jobs")).body.items).toEqual([]);
    const theirRows = rowsIn(service, other);
    const site = await theirRows.site();
    const plan = await theirRows.planVersion(SMALL_PLAN);
    const fields = { kind: "install", title: "Theirs" };
    const own = { ...fields, siteId: site.id, planVersionId: plan.id };
    for (const [change, pointer] of [
      [{ siteId }, "/body/siteId"],
      [{ planVersionId }, "/body/planVersionId"],
      [{ planVersionId: undefined, planId }, "/body/planId"],
      [{ units: [{ unitId }] }, "/body/units/0/unitId"],
    ] as const) {
      const reply = await theirs.post("/api/v1/jobs").send({ ...own, ...change });
      expect([reply.status, pointers(reply)]).toEqual([422, [pointer]]);
    }
    expect((await theirs.post("/api/v1/jobs").send(own)).status).toBe(201);
  });
});
