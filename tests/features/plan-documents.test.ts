import { createHash } from "node:crypto";
import canonicalize from "canonicalize";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { pointers } from "../support/reading.ts";
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
const put = (planId: string, document: unknown, version = 1, number = 1) =>
  manager()
    .put(`${at(planId, number)}/document`)
    .set("if-match", `"${version}"`)
    .send(document as object);
/** By another's implementation of RFC 8785 (the npm package canonicalize). */
const canonicalSha256 = (document: object) =>
  createHash("sha256").update(canonicalize(document)!).digest("hex");
describe("a draft's document", () => {
  test("is replaced against the version that was read, and taken away as meant", async () => {
    const plan = await newPlan();
    const path = `${at(plan.id)}/document`;
    expect((await manager().put(path).send(SMALL_PLAN)).status).toBe(428);
    const done = await put(plan.id, SMALL_PLAN);
    expect([done.status, done.body.publishable, done.headers.etag]).toEqual([200, true, '"2"']);
    expect((await put(plan.id, SMALL_PLAN)).status).toBe(412);
    const taken = await manager().get(path);
    expect(taken.headers["content-type"]).toContain("application/json");
    expect([taken.body, taken.headers.etag]).toEqual([SMALL_PLAN, '"2"']);
    const brought = await newPlan(taken.body);
    expect((await manager().get(at(brought.id))).body.sha256).toBe(done.body.sha256);
  });

  test("with faults is kept, and the faults come back with their places", async () => {
    const plan = await newPlan();
    const [stage] = SMALL_PLAN.stages;
    const doubled = { ...SMALL_PLAN, stages: [stage, stage] };
    const reply = await put(plan.id, doubled);
    expect([reply.status, reply.body.publishable]).toEqual([200, false]);
    expect(reply.body.problems.map(({ pointer }: { pointer: string }) => pointer)).toEqual(
      expect.arrayContaining(["/stages/1/id", "/stages/1/items/0/id"]),
    );
  });

  test("keeps numbers and letters of any script as they were", async () => {
    const document = { numbers: [1e-7, 1e21, 0.1, -1.5, 123456789012345680000], ключ: "Ω 🔋" };
    const plan = await newPlan(document);
    expect((await manager().get(`${at(plan.id)}/document`)).body).toEqual(document);
    const draft = await manager().get(at(plan.id));
    expect(draft.body.sha256).toBe(canonicalSha256(document));
  });

  const nested = (depth: number): object => {
    let document: object = {};
    for (let level = 1; level < depth; level += 1) document = { a: document };
    return document;
  };
  const filled = (bytes: number): object => ({ a: "x".repeat(bytes - '{"a":""}'.length) });

  test.each([
    ["32 levels", nested(32), 200],
    ["33 levels", nested(33), 422],
    ["512 KiB", filled(512 * 1024), 200],
    ["one byte more", filled(512 * 1024 + 1), 422],
    ["more than any body", filled(1024 * 1024 + 1), 413],
    ["a list", [1], 422],
    ["half a character", { a: "\ud83d" }, 422],
    ["a NUL", { a: ["b\u0000"] }, 422],
    ["a NUL in a name", { "b\u0000": 1 }, 422],
  ])("of %s is taken or refused before anything reads it", async (_what, document, status) => {
    const plan = await newPlan();
    expect((await put(plan.id, document)).status).toBe(status);
  });

  test("that is nested beyond all measure is refused, wherever it is sent", async () => {
    const { id } = await newPlan();
    const deep = `{"a":${"[".repeat(100_000)}${"]".repeat(100_000)}}`;
    const send = (verb: "put" | "post", path: string, text: string) =>
      manager()
        [verb](path)
        .set("content-type", "application/json")
        .set("if-match", '"1"')
        .set("idempotency-key", uuidv7())
        .send(text);
    const replies = [
      await send("put", `${at(id)}/document`, deep),
      await send("post", "/api/v1/plans/check", `{"document":${deep}}`),
      await send("post", "/api/v1/plans", `{"code":"DEEP","title":"x","document":${deep}}`),
      await send("post", `/api/v1/plans/${id}/versions`, `{"document":${deep}}`),
    ];
    expect(replies.map(({ status }) => status)).toEqual([422, 422, 422, 422]);
    const huge = await send("post", "/api/v1/plans/check", '{"document":{"a":1e999}}');
    expect([huge.status, pointers(huge)]).toEqual([422, ["/body/document/a"]]);
  });

  test("is tried without being stored", async () => {
    const reply = await service
      .as(service.firm.people.installer)
      .post("/api/v1/plans/check")
      .send({ document: SMALL_PLAN });
    expect([reply.status, reply.body]).toEqual([
      200,
      { publishable: true, problems: [], warnings: [] },
    ]);
    const faulty = await manager()
      .post("/api/v1/plans/check")
      .send({ document: { ...SMALL_PLAN, decisionRule: "hope" } });
    expect(faulty.body.problems[0].pointer).toBe("/decisionRule");
  });

  test("follows the published JSON Schema, draft 2020-12", async () => {
    const reply = await manager().get("/api/v1/plans/schema");
    expect(reply.body.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(reply.body.required).toEqual(
      expect.arrayContaining(["schema", "title", "decisionRule", "stages"]),
    );
    expect(reply.body.properties.schema.const).toBe("plan/1");
  });
});
