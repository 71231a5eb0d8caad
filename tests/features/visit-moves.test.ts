import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { rebookCrew } from "../../src/features/visits/bookings-store.ts";
import type { TestService } from "../support/app.ts";
import { pointers } from "../support/reading.ts";
import { NOW, type Rows, startWork } from "../support/work-rows.ts";

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
describe("a booked visit", () => {
  test("is moved against the version that was read, and its bookings move with it", async () => {
    const crew = await newCrew();
    const other = await newCrew(["Fay Yew"]);
    const { body: visit } = await book({ crewId: crew.id, ...morning });
    const path = `/api/v1/visits/${visit.id}`;
    expect((await office().patch(path).send({ crewId: other.id })).status).toBe(428);
    const moved = await office()
      .patch(path)
      .set("if-match", '"1"')
      .send({ crewId: other.id, endsAt: "2026-11-25T13:00:00+00:00" });
    expect([moved.status, moved.headers.etag]).toEqual([200, '"2"']);
    expect(moved.body).toMatchObject({
      startsAt: "2026-11-25T08:00:00.000Z",
      endsAt: "2026-11-25T13:00:00.000Z",
      people: [{ name: "Fay Yew" }],
    });
    expect((await book({ crewId: crew.id, ...morning })).status).toBe(201);
    const late = await office().patch(path).set("if-match", '"1"').send({ note: "Late" });
    expect(late.status).toBe(412);
  });

  test("may overlap itself when it moves, and not another", async () => {
    const { id: crewId } = await newCrew();
    const { body: visit } = await book({ crewId, ...morning });
    const next = { startsAt: morning.endsAt, endsAt: "2026-11-25T16:00:00+00:00" };
    const { body: neighbour } = await book({ crewId, ...next });
    const move = (version: number, body: object) =>
      office().patch(`/api/v1/visits/${visit.id}`).set("if-match", `"${version}"`).send(body);
    const local = { day: "2026-11-25", from: "07:00", to: "11:00" };
    expect((await move(1, { local })).status).toBe(200);
    const refused = await move(2, { endsAt: "2026-11-25T12:01:00+00:00" });
    expect([refused.status, refused.body.conflicts[0].visitId]).toEqual([409, neighbour.id]);
    const read = await office().get(`/api/v1/visits/${visit.id}`);
    expect([read.body.endsAt, read.body.version]).toEqual(["2026-11-25T11:00:00.000Z", 2]);
    expect(await bookingCount(visit.id)).toBe(3);
  });

  test("keeps its bookings when only the note changes, though the crew was disbanded", async () => {
    const { id: crewId } = await newCrew();
    const { body: visit } = await book({ crewId, ...morning });
    const { firmId } = service.firm;
    await inFirm(service.db, firmId, (tx) =>
      tx.crew.update({ where: { firmId_id: { firmId, id: crewId } }, data: { active: false } }),
    );
    const edit = (version: number, body: object) =>
      office().patch(`/api/v1/visits/${visit.id}`).set("if-match", `"${version}"`).send(body);
    const noted = await edit(1, { note: "Ring first" });
    expect([noted.status, noted.body.note, noted.body.people.length]).toEqual([
      200,
      "Ring first",
      2,
    ]);
    const moved = await edit(2, { endsAt: "2026-11-25T13:00:00+00:00" });
    expect([moved.status, pointers(moved)]).toEqual([422, ["/body/crewId"]]);
  });

  test("is cancelled once, and its slot is free again", async () => {
    const { id: crewId } = await newCrew();
    const { body: visit } = await book({ crewId, ...morning });
    const cancel = () => office().post(`/api/v1/visits/${visit.id}/cancellation`);
    const done = await cancel();
    expect([done.status, done.body.state, done.body.people]).toEqual([201, "cancelled", []]);
    expect((await book({ crewId, ...morning })).status).toBe(201);
    const again = await cancel();
    expect([again.status, again.body.type]).toEqual([409, "/problems/conflict"]);
    const edit = await office()
      .patch(`/api/v1/visits/${visit.id}`)
      .set("if-match", '"2"')
      .send({ note: "x" });
    expect(edit.status).toBe(409);
  });

  test("holds the crew's new people once the crew has changed, if they are free", async () => {
    const crew = await newCrew();
    const { body: visit } = await book({ crewId: crew.id, ...morning });
    const { body: past } = await book({
      crewId: crew.id,
      startsAt: "2026-11-20T08:00:00Z",
      endsAt: "2026-11-20T10:00:00Z",
    });
    const newcomer = await rows.person("Gus Pine");
    const { firmId } = service.firm;
    const { id: crewId } = crew;
    const change = () =>
      inFirm(service.db, firmId, async (tx) => {
        await tx.crewMember.deleteMany({ where: { firmId, crewId } });
        await tx.crewMember.create({ data: { firmId, crewId, personId: newcomer } });
        await rebookCrew(tx, crewId, NOW);
      });
    const busy = await book({ crewId: await rows.crew("Busy", [newcomer]), ...morning });
    await expect(change()).rejects.toThrow(/visit_booking_no_overlap/);
    await office().post(`/api/v1/visits/${busy.body.id}/cancellation`);
    await change();
    const read = await office().get(`/api/v1/visits/${visit.id}`);
    expect(read.body.people).toEqual([{ id: newcomer, name: "Gus Pine" }]);
    expect((await office().get(`/api/v1/visits/${past.id}`)).body.people).toHaveLength(2);
  });
});
