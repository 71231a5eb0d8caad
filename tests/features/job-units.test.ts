import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { ledgerOf } from "../support/reading.ts";
import { addJobRows } from "../support/rows.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

// The practice job's answers were taken on this day.
const PRACTICE_DAY = new Date("2026-11-25T17:00:00Z");
let service: TestService;
let rows: Rows;
let siteId: string;
let planVersionId: string;
let modelId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planVersionId, modelId } = await startWork(PRACTICE_DAY));
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);
const open = (fields: object = {}) =>
  office()
    .post("/api/v1/jobs")
    .send({ siteId, kind: "install", title: "Two packs", planVersionId, ...fields });
const unitIdsOf = async (jobId: string) =>
  (await office().get(`/api/v1/jobs/${jobId}`)).body.units.map(
    ({ unitId, position }: { unitId: string; position: number }) => [position, unitId],
  );
async function newUnits(count: number): Promise<string[]> {
  const ids: string[] = [];
  for (let index = 0; index < count; index += 1) ids.push(await rows.unit(modelId));
  return ids;
}
/** An answer put straight into the database, as far as the rules about units look at it. */
async function addAnswer(jobId: string, unitId: string): Promise<void> {
  const { firmId } = service.firm;
  const last = await inFirm(service.db, firmId, (tx) =>
    tx.answer.count({ where: { firmId, jobId } }),
  );
  await inFirm(service.db, firmId, (tx) =>
    tx.answer.create({
      data: {
        firmId,
        id: uuidv7(),
        jobId,
        itemId: "proved_dead",
        subject: unitId,
        value: { done: true },
        takenAt: PRACTICE_DAY,
        takenAtText: PRACTICE_DAY.toISOString(),
        personId: service.firm.people.installer.id,
        receiptOrder: last + 1,
        outcome: "pass",
        clears: true,
        verdict: {},
        bodySha256: "0".repeat(64),
      },
    }),
  );
}
describe("the units of an open job", () => {
  test("are added behind the others and taken off again, on the record", async () => {
    const [one, two, three] = (await newUnits(3)) as [string, string, string];
    const { body: job } = await open({ units: [{ unitId: one }] });
    const path = `/api/v1/jobs/${job.id}/units`;
    const added = await office().post(path).send({ unitId: two });
    expect([added.status, added.body.position, added.body.modelId]).toEqual([201, 2, modelId]);
    expect((await office().post(path).send({ unitId: two })).status).toBe(409);
    await office().post(path).send({ unitId: three });
    expect((await office().get(`/api/v1/jobs/${job.id}`)).headers.etag).toBe('"3"');
    expect((await office().delete(`${path}/${one}`)).status).toBe(204);
    expect(await unitIdsOf(job.id)).toEqual([
      [1, two],
      [2, three],
    ]);
    expect((await office().delete(`${path}/${one}`)).status).toBe(404);
    expect(await ledgerOf(service, job.id)).toMatchObject([
      { kind: "job.opened" },
      { kind: "job.unit-added", body: { unitId: two, position: 2 } },
      { kind: "job.unit-added", body: { unitId: three, position: 3 } },
      {
        kind: "job.unit-removed",
        body: {
          unitId: one,
          position: 1,
          places: [
            { position: 1, unitId: two },
            { position: 2, unitId: three },
          ],
        },
      },
    ]);
  });

  test("stay when they have answers, and keep their places when one behind them has", async () => {
    const [one, two, three] = (await newUnits(3)) as [string, string, string];
    const units = [one, two, three].map((unitId) => ({ unitId }));
    const { body: job } = await open({ units });
    await addAnswer(job.id, two);
    const refused = await office().delete(`/api/v1/jobs/${job.id}/units/${two}`);
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/conflict"]);
    expect((await office().delete(`/api/v1/jobs/${job.id}/units/${one}`)).status).toBe(204);
    expect(await unitIdsOf(job.id)).toEqual([
      [2, two],
      [3, three],
    ]);
  });

  test("are each on it once, however many add them at the same time", async () => {
    const unitIds = await newUnits(8);
    const { body: job } = await open();
    const replies = await Promise.all(
      [...unitIds, ...unitIds].map((unitId) =>
        office().post(`/api/v1/jobs/${job.id}/units`).send({ unitId }),
      ),
    );
    expect(replies.map(({ status }) => status).sort()).toEqual([
      ...Array(8).fill(201),
      ...Array(8).fill(409),
    ]);
    const places = (await unitIdsOf(job.id)).map(([position]: [number]) => position);
    expect(places).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  test("do not change once the job is closed", async () => {
    const job = await addPracticeJob(service);
    await installer().post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers: job.answers() });
    const closed = await installer().post(`/api/v1/jobs/${job.jobId}/close-out`);
    expect(closed.status).toBe(201);
    const path = `/api/v1/jobs/${job.jobId}`;
    const [unitId] = await newUnits(1);
    const replies = [
      await office().post(`${path}/units`).send({ unitId }),
      await office().delete(`${path}/units/${job.packIds[0]}`),
      await installer().post(`${path}/serials`).send({ modelId, serial: "HN00000009" }),
      await office().post(`${path}/cancellation`).send({ reason: "Too late" }),
      await office().patch(path).set("if-match", '"2"').send({ title: "Too late" }),
    ];
    for (const { status, body } of replies) {
      expect([status, body.type]).toEqual([409, "/problems/job-not-open"]);
    }
    const { body } = await office().get(path);
    expect(body.closeOut).toMatchObject({
      id: closed.body.id,
      ledgerSha256: closed.body.ledgerSha256,
      outcomes: { pass: closed.body.facts.length },
    });
    // A snag found after the hand-over is still taken down.
    const snag = await installer().post(`${path}/snags`).send({ title: "Paint scratched" });
    expect(snag.status).toBe(201);
    expect((await office().get(path)).body.openSnagCount).toBe(1);
  });

  test("are refused with a reason where the pinned plan has no stages", async () => {
    // No route publishes such a plan: it stands for a database that was edited or restored wrongly.
    const { jobId } = await addJobRows(service, { schema: "plan/1", stages: [] });
    const [unitId] = await newUnits(1);
    const replies = [
      await office().post(`/api/v1/jobs/${jobId}/units`).send({ unitId }),
      await installer().post(`/api/v1/jobs/${jobId}/close-out`),
    ];
    for (const { status, body } of replies) {
      expect([status, body.detail]).toEqual([409, expect.stringContaining("it has no stages")]);
    }
  });
});
