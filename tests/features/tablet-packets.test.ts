// A packet is all that a visit needs without a network; its version changes when it does.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { Packet } from "../../src/features/tablet/schemas.ts";
import { startService, type TestService } from "../support/app.ts";
import { addVisit } from "../support/booked-visits.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { type Rows, rowsIn } from "../support/work-rows.ts";

const NOW = new Date("2026-11-26T09:00:00Z");
let now = NOW;
let service: TestService;
let rows: Rows;
let job: PracticeJob;
let crewId: string;

beforeAll(async () => {
  service = await startService({ now: () => now });
  rows = rowsIn(service);
  job = await addPracticeJob(service);
  crewId = await rows.crew("North", [service.firm.people.installer.id]);
});
afterAll(() => service.stop());

const installer = () => service.as(service.firm.people.installer);
const read = (jobId = job.jobId) => installer().get(`/api/v1/tablet/packets/${jobId}`);
const firmId = () => service.firm.firmId;

describe("a packet", () => {
  test("holds the plan, the units, the place and what was answered", async () => {
    const answers = job.answers().slice(0, 4);
    const sent = await installer().post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers });
    expect(sent.status, JSON.stringify(sent.body)).toBe(201);
    const { status, body } = await read();
    expect(status).toBe(200);
    expect(Packet.safeParse(body).error).toBeUndefined();
    expect(body.plan.document.title).toBe("Wall shelf with two packs");
    expect(body.plan.versionId).toBe(job.planVersionId);
    expect(body.units.map((unit: { id: string }) => unit.id)).toEqual(job.packIds);
    expect(body.units[0]).toMatchObject({ kind: "battery-pack", modelName: "Kestrel 5" });
    expect(body.site).toMatchObject({
      customerName: "Row Customer",
      addressLine: "4 Kiln Lane",
      timeZone: "Europe/London",
    });
    expect(body.answers.map((answer: { id: string }) => answer.id)).toEqual(
      answers.map(({ id }) => id),
    );
    expect([body.lastOrder, body.ruleVersion]).toEqual([4, "gate/1"]);
    expect(body.generatedAt).toBe("2026-11-26T09:00:00.000Z");
  });

  test("is not sent again while nothing in it changed, though the clock goes on", async () => {
    const { headers } = await read();
    now = new Date("2026-11-26T09:04:00Z");
    const again = await read().set("if-none-match", headers.etag!);
    expect([again.status, again.text]).toEqual([304, ""]);
    now = NOW;
  });

  test.each<[string, () => Promise<unknown>]>([
    ["an answer", () => sendOneAnswer()],
    ["a concession", () => grantConcession()],
    ["a visit's note", () => bookVisit()],
    ["the job's title", () => renameJob()],
    ["a model's switch map", () => giveSwitchMap()],
    ["the firm's units", () => useUnits("us")],
  ])("has another version after %s", async (_what, change) => {
    const { headers } = await read();
    await change();
    const after = await read().set("if-none-match", headers.etag!);
    expect([after.status, after.headers.etag === headers.etag]).toEqual([200, false]);
  });

  test("of a job with a switch map carries it under the model's code", async () => {
    await giveSwitchMap();
    const { switchMaps, units } = (await read()).body;
    expect(Object.keys(switchMaps)).toEqual([units[0].modelCode]);
    expect(switchMaps[units[0].modelCode].schema).toBe("switch-map/1");
  });

  test("says the units that the firm reads in", async () => {
    await useUnits("us");
    expect((await read()).body.unitSystem).toBe("us");
    await useUnits("metric");
    expect((await read()).body.unitSystem).toBe("metric");
  });

  test("of another firm's job does not exist, and no auditor takes one along", async () => {
    const other = await service.addFirm("birch");
    const path = `/api/v1/tablet/packets/${job.jobId}`;
    expect((await service.as(other.people.installer).get(path)).status).toBe(404);
    expect((await read(uuidv7())).status).toBe(404);
    expect((await read("not-an-id")).status).toBe(422);
    expect((await service.as(service.firm.people.auditor).get(path)).status).toBe(403);
    expect((await service.anonymous.get(path)).status).toBe(401);
    expect((await service.anonymous.head(path)).status).toBe(401);
  });

  test("says of the customer only what the visit needs", async () => {
    await inFirm(service.db, firmId(), (tx) =>
      tx.customer.updateMany({
        where: { firmId: firmId() },
        data: { email: "row@customer.example", note: "pays late", address: "9 Far Street" },
      }),
    );
    const text = JSON.stringify((await read()).body);
    for (const kept of ["row@customer.example", "pays late", "9 Far Street"]) {
      expect(text).not.toContain(kept);
    }
  });
});

describe("its visits", () => {
  test("are the booked ones, earliest first, with crew and note", async () => {
    const other = await addPracticeJob(service);
    const late = await bookVisit(other.jobId, "2026-12-02T09:00:00Z", "Key at number 6");
    const early = await bookVisit(other.jobId, "2026-12-01T09:00:00Z");
    const { visits } = (await read(other.jobId)).body;
    expect(visits.map((visit: { id: string }) => visit.id)).toEqual([early, late]);
    expect(visits[1]).toMatchObject({ crew: "North", note: "Key at number 6" });
  });
});

async function sendOneAnswer(): Promise<void> {
  const answers = job.answers().slice(4, 5);
  const sent = await installer().post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers });
  expect(sent.status, JSON.stringify(sent.body)).toBe(201);
}

async function grantConcession(): Promise<void> {
  const body = { itemId: "wall_gap", subject: job.packIds[0], reason: "Niche, air from above" };
  const manager = service.as(service.firm.people.manager);
  const reply = await manager.post(`/api/v1/jobs/${job.jobId}/concessions`).send(body);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
}

let hour = 0;
async function bookVisit(
  jobId = job.jobId,
  startsAt = new Date(Date.UTC(2027, 0, 4, hour++)).toISOString(),
  note = "Ring first",
): Promise<string> {
  const endsAt = new Date(Date.parse(startsAt) + 3_600_000).toISOString();
  return addVisit(service, { jobId, crewId, startsAt, endsAt, note });
}

async function renameJob(): Promise<void> {
  await inFirm(service.db, firmId(), (tx) =>
    tx.job.update({
      where: { firmId_id: { firmId: firmId(), id: job.jobId } },
      data: { title: "Practice, east wall" },
    }),
  );
}

async function useUnits(unitSystem: "metric" | "us"): Promise<void> {
  await inFirm(service.db, firmId(), (tx) =>
    tx.firm.update({ where: { id: firmId() }, data: { unitSystem } }),
  );
}

async function giveSwitchMap(): Promise<void> {
  await inFirm(service.db, firmId(), (tx) =>
    tx.productModel.updateMany({
      where: { firmId: firmId(), code: { startsWith: "KESTREL-" } },
      data: { switchMap: { schema: "switch-map/1", id: "kestrel" } },
    }),
  );
}
