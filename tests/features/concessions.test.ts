import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";

let now = new Date("2026-10-01T12:00:00Z");
let service: TestService;
let job: PracticeJob;
const as = (role: "manager" | "office" | "auditor" | "installer") =>
  service.as(service.firm.people[role]);
const grant = async (subject: string, reason: string, expiresOn?: string) => {
  const body = { itemId: "wall_gap", subject, reason, ...(expiresOn ? { expiresOn } : {}) };
  const reply = await as("manager").post(`/api/v1/jobs/${job.jobId}/concessions`).send(body);
  expect(reply.status, reply.text).toBe(201);
  return reply.body.id as string;
};

beforeAll(async () => {
  service = await startService({ now: () => now });
  job = await addPracticeJob(service);
  const [first, second] = job.packIds as [string, string];
  await grant(first, "Without an end");
  await grant(second, "Far off", "2026-12-26");
  await grant(second, "Last day in thirty", "2026-12-25");
  await grant(second, "Last day today", "2026-11-25");
  await grant(second, "Over", "2026-11-24");
  const back = await grant(first, "Taken back", "2026-11-24");
  await as("manager").post(`/api/v1/jobs/${job.jobId}/concessions/${back}/revocation`);
  now = new Date("2026-11-25T12:00:00Z");
});
afterAll(() => service.stop());

const listed = async (query = "") => {
  const reply = await as("manager").get(`/api/v1/concessions?${query}`);
  expect(reply.status, reply.text).toBe(200);
  return reply.body as { items: { reason: string; state: string }[]; next: string | null };
};
const reasons = async (query: string) => (await listed(query)).items.map(({ reason }) => reason);

describe("the register of concessions", () => {
  test.each([
    ["in-force", ["Far off", "Without an end"]],
    ["expiring", ["Last day today", "Last day in thirty"]],
    ["expired", ["Over"]],
    ["withdrawn", ["Taken back"]],
  ])("tells which are %s, as the rule and the database alike say", async (state, expected) => {
    const { items } = await listed(`state=${state}`);
    expect(items.map(({ reason }) => reason)).toEqual(expected);
    expect(items.map((one) => one.state)).toEqual(expected.map(() => state));
    const csv = await as("manager").get(`/api/v1/exports/concessions.csv?state=${state}`);
    const lines = csv.text.trim().split("\r\n").slice(1);
    expect(lines).toHaveLength(expected.length);
    for (const reason of expected) expect(csv.text).toContain(reason);
  });

  test("comes in pages, the latest first, and is found by word, job or grantor", async () => {
    const first = await listed("limit=4");
    const rest = await listed(`limit=4&cursor=${first.next}`);
    expect([...first.items, ...rest.items].map(({ reason }) => reason)).toEqual([
      ...["Taken back", "Over", "Last day today", "Last day in thirty", "Far off"],
      "Without an end",
    ]);
    expect(rest.next).toBeNull();
    expect(await reasons("q=last%20DAY")).toEqual(["Last day today", "Last day in thirty"]);
    expect(await reasons(`jobId=${job.jobId}&limit=1`)).toEqual(["Taken back"]);
    expect(await reasons(`grantedById=${service.firm.people.owner.id}`)).toEqual([]);
  });

  test("has a page for the office that says the item in the plan's words", async () => {
    const page = await as("office").get("/concessions?sort=expires").set("accept", "text/html");
    expect(page.status).toBe(200);
    const [one] = (await as("office").get("/api/v1/concessions")).body.items;
    expect(one.serial).toMatch(/\S/);
    for (const text of [one.itemTitle, one.serial, one.jobReference, "✕ ended", "– withdrawn"]) {
      expect(page.text).toContain(text);
    }
    const order = [...page.text.matchAll(/>(Over|Far off|Without an end)</g)].map(([, it]) => it);
    expect(order).toEqual(["Over", "Far off", "Without an end"]);
    const none = await as("installer").get("/concessions").set("accept", "text/html");
    expect(none.status).toBe(403);
  });
});
