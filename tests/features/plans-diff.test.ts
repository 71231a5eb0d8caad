import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { pointers } from "../support/reading.ts";
import { type Rows, SMALL_PLAN, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planId: string;

const VOLTAGE = {
  ...{ kind: "measure", id: "volts", title: "Voltage", do: "Measure it.", holdPoint: true },
  ...{ unit: "V", limit: { min: 216, max: 253 }, instrument: { class: "multimeter" } },
};

const withItems = (...items: object[]) => {
  const [stage] = SMALL_PLAN.stages;
  return { ...SMALL_PLAN, stages: [{ ...stage, items: [...stage!.items, ...items] }] };
};

const manager = () => service.as(service.firm.people.manager);
const at = (number: number) => `/api/v1/plans/${planId}/versions/${number}`;

async function publishNext(document: object): Promise<void> {
  const made = await manager().post(`/api/v1/plans/${planId}/versions`).send({ document });
  expect(made.status).toBe(201);
  const published = await manager().post(`${at(made.body.number)}/publication`);
  expect(published.status).toBe(201);
}

beforeAll(async () => {
  ({ service, rows, siteId } = await startWork());
  const plan = await manager()
    .post("/api/v1/plans")
    .send({ code: "GROWING", title: "Growing", document: withItems(VOLTAGE) });
  planId = plan.body.id;
  const first = await manager().post(`${at(1)}/publication`);
  await rows.job(siteId, first.body.id);
  await rows.job(siteId, first.body.id);
  await publishNext(
    withItems({
      ...VOLTAGE,
      limit: { min: 220, max: 250 },
      instrument: { class: "voltage-tester" },
    }),
  );
  await publishNext(withItems());
});
afterAll(() => service.stop());

describe("what a version changes", () => {
  test("is told against the one before, with weights, concerns and the open jobs", async () => {
    const reply = await manager().get(`${at(2)}/diff`);
    expect(reply.status).toBe(200);
    const { changes, ...rest } = reply.body;
    expect(rest).toEqual({
      ...{ planId, from: 1, to: 2 },
      weights: { stricter: 1, looser: 0, different: 1, wording: 0 },
      instruments: { toBring: ["voltage-tester"], noLonger: ["multimeter"] },
      openJobs: {
        ...{ onEarlier: 2, onLater: 0 },
        sentence:
          "2 open jobs stay with version 1; only jobs opened after publication take the new one.",
      },
    });
    expect(
      changes.map(({ field, weight }: Record<string, string>) => `${field} ${weight}`),
    ).toEqual(["instrument different", "limit stricter"]);
    expect(changes[1]).toMatchObject({
      ...{ of: "item", kind: "changed", stageId: "isolation", itemId: "volts" },
      ...{ before: { min: 216, max: 253 }, after: { min: 220, max: 250 } },
      concerns: ["installer"],
    });
  });

  test("is told against any other version, also a later one", async () => {
    const { body } = await manager().get(`${at(1)}/diff?from=3`);
    expect(body).toMatchObject({ from: 3, to: 1, weights: { stricter: 1 } });
    expect(body.changes[0]).toMatchObject({ kind: "added", itemId: "volts" });
    const same = await manager().get(`${at(2)}/diff?from=2`);
    expect(same.body.changes).toEqual([]);
  });

  test("needs another version, one that is there, and a document that is a plan", async () => {
    const first = await manager().get(`${at(1)}/diff`);
    expect([first.status, pointers(first)]).toEqual([422, ["/query/from"]]);
    expect((await manager().get(`${at(2)}/diff?from=9`)).status).toBe(404);
    const plan = await manager().post("/api/v1/plans").send({ code: "EMPTY", title: "Empty" });
    const path = `/api/v1/plans/${plan.body.id}/versions/1/diff?from=1`;
    const shapeless = await manager().get(path);
    expect([shapeless.status, shapeless.body.type]).toEqual([422, "/problems/plan-invalid"]);
    expect(pointers(shapeless)).toEqual(["/stages"]);
  });

  test("is not there for another firm", async () => {
    const other = await service.addFirm("larch");
    const reply = await service.as(other.people.manager).get(`${at(2)}/diff`);
    expect(reply.status).toBe(404);
  });

  test("is a page too, for those who plan", async () => {
    const page = (role: "office" | "installer") =>
      service
        .as(service.firm.people[role])
        .get(`/plans/${planId}/versions/2/diff?from=1`)
        .set("accept", "text/html");
    const { text } = await page("office");
    expect(text).toContain("Growing: what version 2 changes");
    expect(text).toContain("2 open jobs stay with version 1");
    expect(text).toContain("at least 220 V and at most 250 V");
    expect(text).toContain("To bring: voltage-tester");
    expect((await page("installer")).status).toBe(403);
  });
});
