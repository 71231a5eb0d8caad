// Re-test jobs for readings in doubt: the action that ISO 9001:2015 7.1.5.2 asks for, from memory.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { ledgerOf } from "../support/reading.ts";
import { torqueWork } from "../support/torque-work.ts";
import { rowsIn } from "../support/work-rows.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const MARCH = "2026-03-05T09:00:00+00:00";
const TODAY = "2026-11-25T09:00:00+00:00";

let service: TestService;
let work: ReturnType<typeof torqueWork>;
let rows: ReturnType<typeof rowsIn>;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  rows = rowsIn(service);
  work = torqueWork(service, rows);
});
afterAll(() => service.stop());

const open = (id: string, body?: object) =>
  work.office.post(`/api/v1/instruments/${id}/re-test-jobs`).send(body);

interface Retest {
  jobId: string;
  siteId: string;
  originJobId: string;
  planVersionId: string;
  opened: boolean;
}
const itemsOf = (reply: { body: { items: Retest[] } }) => reply.body.items;

/** A tool with a reading on each of so many sites, found out of tolerance yesterday. */
async function doubted(sites = 1) {
  const { id } = await work.tool();
  const jobs = [];
  for (let count = 0; count < sites; count += 1) jobs.push(await work.closedJob(id, MARCH));
  await work.calibrate(id, "2026-11-24", false);
  return { id, jobs };
}

describe("re-test jobs", () => {
  test("are opened one a site, pinned to the job's plan and linked to it", async () => {
    const { id, jobs } = await doubted(2);
    const reply = await open(id);
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    expect(reply.body).toMatchObject({ skipped: [], remaining: 0 });
    const bySite = new Map(itemsOf(reply).map((item) => [item.siteId, item]));
    expect(bySite.size).toBe(2);
    for (const job of jobs) {
      const item = bySite.get(job.siteId);
      expect(item).toMatchObject({
        originJobId: job.jobId,
        planVersionId: job.planVersionId,
        state: "open",
        opened: true,
      });
      const opened = await work.office.get(`/api/v1/jobs/${item!.jobId}`);
      expect(opened.body).toMatchObject({ kind: "inspection", site: { id: job.siteId } });
      const origin = (await ledgerOf(service, job.jobId)).at(-1);
      expect(origin).toMatchObject({
        kind: "job.retest-opened",
        body: { retestJobId: item!.jobId, instrumentId: id },
      });
      expect((await ledgerOf(service, item!.jobId)).map(({ kind }) => kind)).toEqual([
        "job.opened",
        "job.retest",
      ]);
    }
  });

  test("take along the units that are still there", async () => {
    const { id } = await work.tool();
    const made = await work.place();
    const modelId = await rows.model();
    const here = await rows.unit(modelId, { state: "installed", siteId: made.siteId });
    const gone = await rows.unit(modelId, { state: "swapped" });
    await inFirm(service.db, service.firm.firmId, async (tx) => {
      for (const [index, unitId] of [gone, here].entries()) {
        const own = { firmId: tx.firmId, jobId: made.jobId, position: index + 1 };
        await tx.jobUnit.create({ data: { ...own, unitId } });
      }
    });
    await work.submit(made.jobId, { tool: id, takenAt: MARCH });
    await work.calibrate(id, "2026-11-24", false);
    const [item] = itemsOf(await open(id));
    const { units } = (await work.office.get(`/api/v1/jobs/${item!.jobId}`)).body;
    expect(units.map(({ unitId }: { unitId: string }) => unitId)).toEqual([here]);
  });

  test("are not opened twice, asked again or at once", async () => {
    const { id } = await doubted();
    const replies = await Promise.all([open(id, {}), open(id, {}), open(id, {})]);
    expect(replies.map(({ status }) => status).sort()).toEqual([200, 200, 201]);
    const again = await open(id);
    expect([again.status, itemsOf(again).map(({ opened }) => opened)]).toEqual([200, [false]]);
    for (const reply of replies) {
      expect(itemsOf(reply).map(({ jobId }) => jobId)).toEqual(
        itemsOf(again).map(({ jobId }) => jobId),
      );
    }
  });

  test("are replayed under their Idempotency-Key", async () => {
    const { id } = await doubted();
    const send = () => open(id, {}).set("idempotency-key", `retest-${id}`);
    const [one, two] = [await send(), await send()];
    expect([one.status, two.status]).toEqual([201, 201]);
    expect(two.body).toEqual(one.body);
  });

  test("replace what was in doubt once they are done with a sound instrument", async () => {
    const { id, jobs } = await doubted();
    const sound = await work.tool();
    const [item] = itemsOf(await open(id));
    const readings = async () =>
      (await work.office.get(`/api/v1/instruments/${id}/affected-readings`)).body.items.map(
        (row: { itemId: string; replaced: boolean }) => [row.itemId, row.replaced],
      );
    await work.submit(item!.jobId, { tool: sound.id, takenAt: TODAY });
    expect((await readings()).sort()).toEqual([
      ["cover_screws", false],
      ["shelf_bolts", true],
    ]);
    await work.submit(item!.jobId, { tool: sound.id, takenAt: TODAY, itemId: "cover_screws" });
    expect((await readings()).every(([, replaced]: [string, boolean]) => replaced)).toBe(true);
    expect(jobs[0]?.siteId).toBe(item?.siteId);
  });

  test("are opened anew when one was cancelled", async () => {
    const { id } = await doubted();
    const [first] = itemsOf(await open(id));
    const cancelled = await work.office
      .post(`/api/v1/jobs/${first!.jobId}/cancellation`)
      .send({ reason: "Opened by mistake" });
    expect(cancelled.status, JSON.stringify(cancelled.body)).toBeLessThan(300);
    const second = await open(id);
    expect(second.status).toBe(201);
    expect(itemsOf(second).map(({ jobId }) => jobId)).not.toContain(first!.jobId);
  });

  test("skip an archived site and say so", async () => {
    const { id, jobs } = await doubted();
    const siteId = jobs[0]!.siteId;
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.site.update({
        where: { firmId_id: { firmId: tx.firmId, id: siteId } },
        data: { archivedAt: NOW },
      }),
    );
    const reply = await open(id);
    expect(reply.status).toBe(200);
    expect(reply.body).toMatchObject({ items: [], skipped: [{ siteId }], remaining: 0 });
  });

  test("are none where nothing is in doubt", async () => {
    const { id } = await work.tool();
    await work.closedJob(id, MARCH);
    const reply = await open(id);
    expect([reply.status, reply.body]).toEqual([200, { items: [], skipped: [], remaining: 0 }]);
  });

  test.each([
    ["owner", 201],
    ["manager", 201],
    ["installer", 403],
    ["auditor", 403],
  ] as const)("by %s: %d", async (role, status) => {
    const { id } = await doubted();
    const client = service.as(service.firm.people[role]);
    const reply = await client.post(`/api/v1/instruments/${id}/re-test-jobs`).send({});
    expect(reply.status).toBe(status);
    const readings = await client.get(`/api/v1/instruments/${id}/affected-readings`);
    expect(readings.status).toBe(200);
  });
});
