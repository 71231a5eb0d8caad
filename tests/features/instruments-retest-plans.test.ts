// The plan that re-test jobs are pinned to, where the request names one.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { torqueWork } from "../support/torque-work.ts";
import { rowsIn, SMALL_PLAN } from "../support/work-rows.ts";

let service: TestService;
let work: ReturnType<typeof torqueWork>;
let rows: ReturnType<typeof rowsIn>;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  rows = rowsIn(service);
  work = torqueWork(service, rows);
});
afterAll(() => service.stop());

const open = (id: string, body?: object) =>
  work.office.post(`/api/v1/instruments/${id}/re-test-jobs`).send(body);

const itemsOf = (reply: { body: { items: { planVersionId: string; opened: boolean }[] } }) =>
  reply.body.items;

async function doubted() {
  const { id } = await work.tool();
  await work.closedJob(id, "2026-03-05T09:00:00+00:00");
  await work.calibrate(id, "2026-11-24", false);
  return { id };
}

describe("re-test jobs", () => {
  test("pin a plan that is given, by version or as its latest", async () => {
    const version = await rows.planVersion(SMALL_PLAN);
    const one = await doubted();
    const [item] = itemsOf(await open(one.id, { planVersionId: version.id }));
    expect(item?.planVersionId).toBe(version.id);
    const two = await doubted();
    const [latest] = itemsOf(await open(two.id, { planId: version.planId }));
    expect(latest?.planVersionId).toBe(version.id);
  });

  test.each([
    ["a version that is not there", { planVersionId: crypto.randomUUID() }, "/body/planVersionId"],
    ["a plan that is not there", { planId: crypto.randomUUID() }, "/body/planId"],
    [
      "both",
      { planId: crypto.randomUUID(), planVersionId: crypto.randomUUID() },
      "/body/planVersionId",
    ],
    ["a field that is none", { colour: "red" }, "/body"],
  ])("are refused for %s, and none is opened", async (_what, body, pointer) => {
    const { id } = await doubted();
    const reply = await open(id, body);
    expect([reply.status, pointersOf(reply)]).toEqual([422, [pointer]]);
    expect(itemsOf(await open(id)).filter(({ opened }) => opened)).toHaveLength(1);
  });

  test("are refused for a plan that reads what their units lack", async () => {
    const plan = { ...SMALL_PLAN, attributes: { cells: "number" } };
    const version = await rows.planVersion(plan);
    const { id } = await work.tool();
    const made = await work.place();
    const modelId = await rows.model();
    const unitId = await rows.unit(modelId);
    const added = await work.office.post(`/api/v1/jobs/${made.jobId}/units`).send({ unitId });
    expect(added.status, JSON.stringify(added.body)).toBe(201);
    await work.submit(made.jobId, { tool: id, takenAt: "2026-03-05T09:00:00+00:00" });
    await work.calibrate(id, "2026-11-24", false);
    const reply = await open(id, { planVersionId: version.id });
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/planVersionId"]]);
    expect(reply.body.detail).toContain("cells");
  });
});
