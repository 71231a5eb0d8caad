import { createHash } from "node:crypto";
import canonicalize from "canonicalize";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { idsOf, nextOf, pointers } from "../support/reading.ts";
import { NOW, SMALL_PLAN, startWork } from "../support/work-rows.ts";

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
const put = (planId: string, document: unknown, version = 1, number = 1) =>
  manager()
    .put(`${at(planId, number)}/document`)
    .set("if-match", `"${version}"`)
    .send(document as object);
/** By another's implementation of RFC 8785 (the npm package canonicalize). */
const canonicalSha256 = (document: object) =>
  createHash("sha256").update(canonicalize(document)!).digest("hex");
describe("a plan", () => {
  test("begins with a draft, which may have faults", async () => {
    const plan = await newPlan();
    const read = await manager().get(`/api/v1/plans/${plan.id}`);
    expect(read.body).toMatchObject({
      code: plan.code,
      draft: { number: 1, state: "draft" },
      published: null,
    });
    const draft = await manager().get(at(plan.id));
    expect([draft.body.publishable, draft.body.document.title]).toEqual([false, "Packs"]);
    expect(draft.body.problems[0]).toMatchObject({ pointer: "/stages", code: "shape" });
    expect(draft.headers.etag).toBe('"1"');
  });

  test("has a code that no other plan of the firm has", async () => {
    const { code } = await newPlan();
    const again = await manager().post("/api/v1/plans").send({ code, title: "Twin" });
    expect([again.status, again.body.type]).toEqual([409, "/problems/conflict"]);
    const other = await service.addFirm("cedar");
    const theirs = await service
      .as(other.people.owner)
      .post("/api/v1/plans")
      .send({ code, title: "Twin" });
    expect(theirs.status).toBe(201);
    const bad = await manager().post("/api/v1/plans").send({ code: "a b", title: "" });
    expect(pointers(bad)).toEqual(["/body/code", "/body/title"]);
  });

  test("is listed by code and by part of its title, page by page, and can be renamed", async () => {
    const ids: string[] = [];
    for (const title of ["Listed one", "Listed two", "Listed three"]) {
      const { body } = await manager().post("/api/v1/plans").send({ code: freshCode(), title });
      ids.push(body.id);
    }
    const first = await manager().get("/api/v1/plans?title=listed&limit=2");
    const second = await manager().get(nextOf(first));
    expect([...idsOf(first), ...idsOf(second)]).toEqual(ids);
    const path = `/api/v1/plans/${ids[0]}`;
    expect((await manager().patch(path).send({ title: "X" })).status).toBe(428);
    const renamed = await manager().patch(path).set("if-match", '"1"').send({ title: "Renamed" });
    expect([renamed.status, renamed.body.title]).toEqual([200, "Renamed"]);
    expect((await manager().patch(path).set("if-match", '"1"').send({})).status).toBe(412);
    const byCode = await manager().get(`/api/v1/plans?code=${renamed.body.code.toLowerCase()}`);
    expect(idsOf(byCode)).toEqual([ids[0]]);
  });
});

describe("publishing", () => {
  test("is refused with every fault and its place, and passes once they are mended", async () => {
    const broken = structuredClone(SMALL_PLAN);
    broken.stages[0]!.items[0]!.holdPoint = false;
    const plan = await newPlan(broken);
    const refused = await publish(plan.id);
    expect([refused.status, refused.body.type]).toEqual([422, "/problems/plan-invalid"]);
    expect(pointers(refused)).toEqual(["/stages"]);
    expect(refused.body.errors[0].detail).toContain("hold point");

    await put(plan.id, SMALL_PLAN);
    const done = await publish(plan.id);
    expect(done.status).toBe(201);
    expect(done.body).toMatchObject({
      state: "published",
      publishedAt: NOW.toISOString(),
      publishedById: service.firm.people.manager.id,
      sha256: canonicalSha256(SMALL_PLAN),
    });
    const read = await manager().get(`/api/v1/plans/${plan.id}`);
    expect([read.body.draft, read.body.published.number]).toEqual([null, 1]);
  });

  test("freezes the version, for the service and for the database", async () => {
    const plan = await newPlan(SMALL_PLAN);
    const { body: version } = await publish(plan.id);
    const edit = await put(plan.id, SMALL_PLAN, 2);
    expect([edit.status, edit.body.type]).toEqual([409, "/problems/conflict"]);
    expect((await publish(plan.id)).status).toBe(409);
    const client = new pg.Client({ connectionString: service.ownerUrl });
    await client.connect();
    const change = client.query("UPDATE plan_version SET document = '{}' WHERE id = $1", [
      version.id,
    ]);
    await expect(change).rejects.toThrow("does not change");
    await client.end();
  });

  test("with If-Match publishes only what was read", async () => {
    const plan = await newPlan(SMALL_PLAN);
    await put(plan.id, { ...SMALL_PLAN, title: "Changed meanwhile" });
    expect((await publish(plan.id).set("if-match", '"1"')).status).toBe(412);
    expect((await publish(plan.id).set("if-match", '"2"')).status).toBe(201);
  });
});

describe("plans and who may", () => {
  test("are written by owner and manager, and read by everyone", async () => {
    const { people } = service.firm;
    const plan = await newPlan(SMALL_PLAN);
    for (const role of ["office", "installer", "auditor"] as const) {
      const client = service.as(people[role]);
      expect((await client.get(at(plan.id))).status).toBe(200);
      expect((await client.post("/api/v1/plans").send({})).status).toBe(403);
      expect((await client.put(`${at(plan.id)}/document`).send({})).status).toBe(403);
      expect((await client.post(`${at(plan.id)}/publication`)).status).toBe(403);
    }
    expect((await service.as(people.owner).post(`${at(plan.id)}/publication`)).status).toBe(201);
    expect((await service.anonymous.get("/api/v1/plans/schema")).status).toBe(401);
  });

  test("of another firm are not there", async () => {
    const other = await service.addFirm("birch");
    const theirs = service.as(other.people.owner);
    const plan = await newPlan(SMALL_PLAN);
    for (const path of [`/api/v1/plans/${plan.id}`, at(plan.id), `${at(plan.id)}/document`]) {
      expect((await theirs.get(path)).status).toBe(404);
    }
    expect((await theirs.get(`/api/v1/plans/${plan.id}/versions`)).status).toBe(404);
    expect((await theirs.post(`/api/v1/plans/${plan.id}/versions`)).status).toBe(404);
    expect((await theirs.post(`${at(plan.id)}/publication`)).status).toBe(404);
    expect((await theirs.get("/api/v1/plans")).body.items).toEqual([]);
    expect((await manager().get(at(plan.id, 7))).status).toBe(404);
    expect((await manager().get(at(plan.id, 0))).status).toBe(422);
  });
});
