import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { TRIED_PLAN } from "../support/tried-plan.ts";
import { NOW, startWork } from "../support/work-rows.ts";

let service: TestService;
beforeAll(async () => {
  ({ service } = await startWork());
});
afterAll(() => service.stop());

const manager = () => service.as(service.firm.people.manager);
const post = (body: object) => manager().post("/api/v1/plans/trial").send(body);

describe("a sample", () => {
  test("passes when it is sent as it is, and fails where one answer is changed", async () => {
    const plan = await manager()
      .post("/api/v1/plans")
      .send({ code: "SAMPLED", title: "Sampled", document: TRIED_PLAN });
    const path = `/api/v1/plans/${plan.body.id}/versions/1/sample`;
    const { status, body } = await manager().get(path);
    expect(status).toBe(200);
    expect(body).toMatchObject({ assumed: { ocvMinV: 45 }, notDerived: [] });
    expect(body.answers[0].takenAt).toBe(
      new Date(NOW.getTime() + 30_000).toISOString().replace(".000", ""),
    );
    const { context, answers } = body;
    const plain = { plan: { planId: plan.body.id, number: 1 }, context };
    expect((await post({ ...plain, answers })).body.gate.open).toBe(true);
    const changed = answers.map((answer: { itemId: string }) =>
      answer.itemId === "volts" ? { ...answer, value: { number: 44, unit: "V" } } : answer,
    );
    const refused = await post({ ...plain, answers: changed });
    expect(refused.body.gate.blockers).toHaveLength(2);
    const tt = await manager().get(`${path}?supply=TT`);
    expect(tt.body.answers.map(({ itemId }: { itemId: string }) => itemId)).toContain("electrode");
  });

  test("is not made of a document with faults", async () => {
    const plan = await manager().post("/api/v1/plans").send({ code: "FAULTY", title: "Faulty" });
    const reply = await manager().get(`/api/v1/plans/${plan.body.id}/versions/1/sample`);
    expect([reply.status, reply.body.type]).toEqual([422, "/problems/plan-invalid"]);
  });
});
