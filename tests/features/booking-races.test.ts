// A thousand attempts at a few places in the diary, sixty-four of them at a time: the database lets
// one through for each place, and everybody else is told that it is taken.
import pg from "pg";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

const ATTEMPTS = 1000;
const AT_ONCE = 64;
const CREWS = 4;
let service: TestService;
let rows: Rows;
let jobIds: string[];
let crewIds: string[];

beforeAll(async () => {
  const work = await startWork();
  ({ service, rows } = work);
  jobIds = [];
  for (let made = 0; made < AT_ONCE; made += 1) {
    jobIds.push(await rows.job(work.siteId, work.planVersionId));
  }
  crewIds = [];
  for (let made = 0; made < CREWS; made += 1) {
    crewIds.push(await rows.crew(`Crew ${made}`, [await rows.person(`Person ${made}`)]));
  }
});
afterAll(() => service.stop());

/** Hours of ten days for each crew, each attempt an hour longer or shorter than the next. */
function attempt(at: number) {
  const day = String(1 + (at % 10)).padStart(2, "0");
  const from = 8 + (Math.floor(at / 10) % 6);
  const hour = (value: number) => String(value).padStart(2, "0");
  return {
    crewId: crewIds[at % CREWS],
    startsAt: `2026-12-${day}T${hour(from)}:00:00Z`,
    endsAt: `2026-12-${day}T${hour(from + 1 + (at % 3))}:00:00Z`,
  };
}

test("of 1,000 attempts no two are booked over each other, and the rest are told why", async () => {
  const office = service.as(service.firm.people.office);
  const outcomes = new Map<string, number>();
  for (let first = 0; first < ATTEMPTS; first += AT_ONCE) {
    const batch = Array.from({ length: Math.min(AT_ONCE, ATTEMPTS - first) }, async (_, at) => {
      const reply = await office
        .post(`/api/v1/jobs/${jobIds[at]}/visits`)
        .send(attempt(first + at));
      const what = reply.status === 201 ? "booked" : `${reply.status} ${reply.body.type}`;
      outcomes.set(what, (outcomes.get(what) ?? 0) + 1);
    });
    await Promise.all(batch);
  }
  const taken = "409 /problems/double-booked";
  expect([...outcomes.keys()].toSorted()).toEqual([taken, "booked"]);
  expect((outcomes.get("booked") ?? 0) + (outcomes.get(taken) ?? 0)).toBe(ATTEMPTS);
  const client = new pg.Client({ connectionString: service.ownerUrl });
  await client.connect();
  const overlaps = await client.query(
    `SELECT count(*)::int AS count FROM visit a
     JOIN visit b ON b.crew_id = a.crew_id AND b.id > a.id
     AND b.starts_at < a.ends_at AND a.starts_at < b.ends_at
     WHERE a.state = 'booked' AND b.state = 'booked'`,
  );
  await client.end();
  expect(overlaps.rows[0].count).toBe(0);
  expect(outcomes.get("booked")).toBeGreaterThanOrEqual(CREWS);
}, 120_000);
