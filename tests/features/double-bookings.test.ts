import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
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
describe("double booking", () => {
  test("is refused with who and what is booked, where and when", async () => {
    const first = await newCrew(["Dee Fir"]);
    const second = await newCrew(["Ed Oak"]);
    const shared = await rows.crew("Shared", [first.personIds[0]!, second.personIds[0]!]);
    const instrumentId = await rows.instrument("Insulation tester");
    const one = await book({ crewId: first.id, ...morning, instrumentIds: [instrumentId] });
    const two = await book({ crewId: second.id, ...morning });
    const reply = await book({
      crewId: shared,
      startsAt: "2026-11-25T11:59:00+00:00",
      endsAt: "2026-11-25T15:00:00+00:00",
      instrumentIds: [instrumentId],
    });
    expect([reply.status, reply.body.type]).toEqual([409, "/problems/double-booked"]);
    const times = { startsAt: "2026-11-25T08:00:00.000Z", endsAt: "2026-11-25T12:00:00.000Z" };
    const ofOne = { visitId: one.body.id, jobReference: one.body.job.reference, ...times };
    const ofTwo = { visitId: two.body.id, jobReference: two.body.job.reference, ...times };
    expect(reply.body.conflicts).toHaveLength(3);
    expect(reply.body.conflicts).toEqual(
      expect.arrayContaining([
        { what: "person", id: first.personIds[0], name: "Dee Fir", ...ofOne },
        { what: "person", id: second.personIds[0], name: "Ed Oak", ...ofTwo },
        {
          what: "instrument",
          id: instrumentId,
          name: expect.stringContaining("Insulation tester"),
          ...ofOne,
        },
      ]),
    );
    expect(reply.body.detail).toContain("2026-11-25 08:00 to 12:00 (Europe/London)");
  });

  test("is not what visits do that meet end to start", async () => {
    const { id: crewId } = await newCrew();
    expect((await book({ crewId, ...morning })).status).toBe(201);
    const next = { startsAt: morning.endsAt, endsAt: "2026-11-25T16:00:00+00:00" };
    expect((await book({ crewId, ...next })).status).toBe(201);
  });

  test("cannot happen: of 40 bookings at once for one slot exactly one wins", async () => {
    const { id: crewId } = await newCrew();
    const jobIds = await Promise.all(Array.from({ length: 40 }, () => newJob()));
    const replies = await Promise.all(jobIds.map((jobId) => book({ crewId, ...morning }, jobId)));
    const made = replies.filter(({ status }) => status === 201);
    expect(made).toHaveLength(1);
    const refused = replies.filter(({ status }) => status === 409);
    expect(refused).toHaveLength(39);
    for (const { body } of refused) {
      expect(body.conflicts[0]).toMatchObject({ what: "crew", visitId: made[0]!.body.id });
    }
  });

  test("that only the database sees is refused with its conflicts all the same", async () => {
    const crew = await newCrew();
    const rival = await book({
      crewId: crew.id,
      startsAt: "2026-12-01T08:00:00Z",
      endsAt: "2026-12-01T12:00:00Z",
    });
    // Another program moves its booking without asking, and commits while ours is under way.
    const client = new pg.Client({ connectionString: service.ownerUrl });
    await client.connect();
    await client.query("BEGIN");
    await client.query(
      "UPDATE visit_booking SET starts_at = $1, ends_at = $2 WHERE visit_id = $3",
      [morning.startsAt, morning.endsAt, rival.body.id],
    );
    const waiting = book({ crewId: crew.id, ...morning }).then((reply) => reply);
    await untilSomeoneWaits(client);
    await client.query("COMMIT");
    await client.end();
    const reply = await waiting;
    expect([reply.status, reply.body.type]).toEqual([409, "/problems/double-booked"]);
    expect(reply.body.conflicts).toHaveLength(3);
    expect(reply.body.conflicts[0]).toMatchObject({ what: "crew", name: crew.name });
  });
});

async function untilSomeoneWaits(client: pg.Client): Promise<void> {
  for (let tries = 0; tries < 500; tries += 1) {
    const { rowCount } = await client.query("SELECT FROM pg_locks WHERE NOT granted");
    if (rowCount) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error("nobody came to wait");
}
