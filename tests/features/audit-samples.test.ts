// Samples that are kept: what was drawn stays, whatever closes later; anybody draws it again with
// the seed, the lot and the commands of any machine.
import { execFileSync } from "node:child_process";
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { sampleState } from "../../src/domain/sampling/sample-state.ts";
import { startService, type TestService } from "../support/app.ts";
import { addProvenJob } from "../support/evidence-bag.ts";

const JOBS = 4;
const EVER = { from: "2000-01-01", to: "2099-12-31", limit: 6.5 };
let service: TestService;
let path: string;
beforeAll(async () => {
  service = await startService();
  for (let made = 0; made < JOBS; made++) await addProvenJob(service);
});
afterAll(() => service.stop());
const as = (role: "auditor" | "office" | "installer" | "manager" = "auditor") =>
  service.as(service.firm.people[role]);

// ISO 2859-1, from memory: more nonconforming than the acceptance number rejects at once.
test.each([
  [{ size: 2, looked: 0, found: 0, accept: 0 }, "open"],
  [{ size: 2, looked: 1, found: 0, accept: 0 }, "open"],
  [{ size: 2, looked: 2, found: 0, accept: 0 }, "accepted"],
  [{ size: 2, looked: 1, found: 1, accept: 0 }, "rejected"],
  [{ size: 5, looked: 5, found: 1, accept: 1 }, "accepted"],
  [{ size: 5, looked: 2, found: 2, accept: 1 }, "rejected"],
] as const)("%j is %s", (standing, state) => {
  expect(sampleState(standing)).toBe(state);
});

describe("a kept sample", () => {
  test("says what it was drawn from and how, and is kept once", async () => {
    const reply = await as()
      .post("/api/v1/audits")
      .send({ ...EVER, seed: "spring-26" });
    expect(reply.status, reply.text).toBe(201);
    path = reply.headers.location as string;
    // A lot of 4 at an AQL of 6.5 %: code letter A, 2 of them, 0/1 (ISO 2859-1, from memory).
    expect(reply.body).toMatchObject({
      ...{ lotSize: 4, letter: "A", sampleSize: 2, accept: 0, limit: 6.5, seed: "spring-26" },
      ...{ looked: 0, found: 0, state: "open", isWithinAudit: false, keptByName: "auditor person" },
    });
    expect(reply.body.reference).toMatch(/^A-\d{4}-0001$/);
    const again = await as()
      .post("/api/v1/audits")
      .send({ ...EVER, limit: "6.5", seed: "spring-26" });
    expect(again.headers.location).toBe(path);
    expect((await as("office").post("/api/v1/audits").send(EVER)).status).toBe(403);
    const none = await as()
      .post("/api/v1/audits")
      .send({ ...EVER, to: "2000-01-02" });
    expect(none.body.errors[0].pointer).toBe("/body/to");
  });

  test("is drawn again by the commands of any machine, and stays as jobs close", async () => {
    const before = (await as().get(path)).body;
    await addProvenJob(service);
    expect((await as().get(path)).body).toEqual(before);
    const lot = (await as().get(`${path}/lot`)).text;
    expect(lot.trim().split("\n")).toHaveLength(JOBS);
    const draw =
      'while read -r n; do printf "%s:%s" "$SEED" "$n" | sha256sum | sed "s/-$/$n/"; done | ' +
      'LC_ALL=C sort | head -n "$SIZE"';
    const env = { ...process.env, SEED: before.seed, SIZE: String(before.sampleSize) };
    const out = execFileSync("sh", ["-c", draw], { input: lot, env, encoding: "utf8" });
    const names = out
      .trim()
      .split("\n")
      .map((line) => line.split(/\s+/)[1]);
    expect(before.jobs.map((job: { reference: string }) => job.reference)).toEqual(names);
    await expect(
      service.db.prisma.$executeRaw`UPDATE audit_sample SET seed = 'other'`,
    ).rejects.toThrow();
  });

  test("has its jobs ticked off with a remark; looks are added and none is changed", async () => {
    const [first, second] = (await as().get(path)).body.jobs;
    const looks = `${path}/jobs/${first.jobId}/looks`;
    expect((await as().post(looks).send({ remark: "Photos blurred" })).status).toBe(201);
    expect((await as("manager").post(looks).send({})).status).toBe(201);
    const { body } = await as().get(path);
    expect(body).toMatchObject({ looked: 1, found: 0, state: "open" });
    expect(body.jobs[0].looks).toMatchObject([
      { personName: "manager person", remark: null },
      { personName: "auditor person", remark: "Photos blurred" },
    ]);
    expect((await as("installer").post(looks).send({})).status).toBe(403);
    const stranger = `${path}/jobs/${service.firm.people.owner.id}/looks`;
    expect((await as().post(stranger).send({})).status).toBe(404);
    await as().post(`${path}/jobs/${second.jobId}/looks`).send({});
    expect((await as().get(path)).body).toMatchObject({ looked: 2, state: "accepted" });
  });

  test("is rejected by a finding, which leads back to it and to nothing else", async () => {
    const sample = (await as().get(path)).body;
    const open = (fields: object) =>
      as()
        .post("/api/v1/nonconformances")
        .send({ kind: "audit", title: "Torque not noted", auditSampleId: sample.id, ...fields });
    const lot = (await as().get("/api/v1/jobs")).body.items.map((job: { id: string }) => job.id);
    const drawn = sample.jobs.map((job: { jobId: string }) => job.jobId);
    const undrawn = lot.find((id: string) => !drawn.includes(id));
    for (const fields of [{}, { jobId: undrawn }, { jobId: drawn[0], kind: "work" }]) {
      expect((await open(fields)).status).toBe(422);
    }
    const finding = await open({ jobId: drawn[0] });
    expect(finding.body).toMatchObject({ auditSampleId: sample.id, jobId: drawn[0] });
    const after = (await as().get(path)).body;
    expect(after).toMatchObject({ found: 1, state: "rejected" });
    expect(after.jobs[0].findings).toMatchObject([{ reference: finding.body.reference }]);
    const [listed] = (await as("manager").get("/api/v1/audits")).body.items;
    expect(listed).toMatchObject({ id: sample.id, found: 1, looked: 2, state: "rejected" });
  });

  test("is taken away as a table with what was seen", async () => {
    const { id, reference } = (await as().get(path)).body;
    const reply = await as().get(`/api/v1/exports/kept-audit-sample.csv?sampleId=${id}`);
    const rows: Record<string, string>[] = parse(reply.text, { columns: true, bom: true });
    expect(rows).toHaveLength(2);
    expect(rows[0]).toMatchObject({ sample: reference, draw: "1", lookedBy: "manager person" });
    expect(rows[0]?.findings).toMatch(/^N-/);
    expect(rows[1]?.findings).toBe("");
  });
});
