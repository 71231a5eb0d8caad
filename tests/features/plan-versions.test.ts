import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { SMALL_PLAN, startWork } from "../support/work-rows.ts";

let service: TestService;

beforeAll(async () => {
  ({ service } = await startWork());
});
afterAll(() => service.stop());

const manager = () => service.as(service.firm.people.manager);
let planCount = 0;
const freshCode = () => {
  planCount += 1;
  return `PLAN-${planCount}`;
};

async function newPlan(document?: object) {
  const reply = await manager()
    .post("/api/v1/plans")
    .send({ code: freshCode(), title: "Packs", ...(document ? { document } : {}) });
  expect(reply.status).toBe(201);
  return reply.body as { id: string; code: string };
}
const at = (planId: string, number = 1) => `/api/v1/plans/${planId}/versions/${number}`;
const publish = (planId: string, number = 1) => manager().post(`${at(planId, number)}/publication`);
describe("versions", () => {
  test("are started from the latest or from a given document, one draft at a time", async () => {
    const plan = await newPlan(SMALL_PLAN);
    const start = (body?: object) =>
      manager()
        .post(`/api/v1/plans/${plan.id}/versions`)
        .send(body ?? {});
    const early = await start();
    expect([early.status, early.body.number]).toEqual([409, 1]);
    await publish(plan.id);
    const second = await start();
    expect(second.status).toBe(201);
    expect(second.body).toMatchObject({ number: 2, state: "draft", document: SMALL_PLAN });
    expect(second.headers.location).toBe(at(plan.id, 2));
    await publish(plan.id, 2);
    const third = await start({ document: { ...SMALL_PLAN, title: "Third" } });
    expect(third.body.document.title).toBe("Third");
    const list = await manager().get(`/api/v1/plans/${plan.id}/versions`);
    expect(
      list.body.items.map(({ number, state }: { number: number; state: string }) => [
        number,
        state,
      ]),
    ).toEqual([
      [1, "published"],
      [2, "published"],
      [3, "draft"],
    ]);
    const read = await manager().get(`/api/v1/plans/${plan.id}`);
    expect([read.body.draft.number, read.body.published.number]).toEqual([3, 2]);
  });

  test("started by ten at once are one draft", async () => {
    const plan = await newPlan(SMALL_PLAN);
    await publish(plan.id);
    const replies = await Promise.all(
      Array.from({ length: 10 }, () => manager().post(`/api/v1/plans/${plan.id}/versions`)),
    );
    expect(replies.filter(({ status }) => status === 201)).toHaveLength(1);
    expect(replies.filter(({ status }) => status === 409)).toHaveLength(9);
  });
});
