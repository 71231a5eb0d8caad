// The bag that an auditor held to part of the firm asks for holds that part and says so, although
// it is made later and by nobody's request; what leaves as a stream is read within the scope too.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { auditScope, inSameScope, withinAudit } from "../../src/db/audit-scope.ts";
import {
  addProvenJob,
  certificatesOf,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { exportScope, fetchExport } from "../support/evidence-exports.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";

let stage: EvidenceStage;
let inside: PracticeJob;
let outside: PracticeJob;
const as = (role: "auditor" | "owner") => stage.service.as(stage.service.firm.people[role]);
beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  inside = await addProvenJob(stage.service);
  outside = await addPracticeJob(stage.service);
  const path = `/api/v1/people/${stage.service.firm.people.auditor.id}/audit-access`;
  const scope = { siteIds: [inside.siteId] };
  await as("owner").put(path).send({ outside: true, until: "2026-12-20", scope });
});
afterAll(() => stage.stop());

test("the whole fleet is one bag of the jobs in the scope, told in it, and verifies", async () => {
  const made = await exportScope(stage.service, { kind: "fleet" });
  expect(made).toMatchObject({ state: "ready", jobsTotal: 1 });
  const site = (await as("owner").get(`/api/v1/sites/${inside.siteId}`)).body.reference;
  expect(made.title).toBe(`the whole fleet, within the scope of an audit (site ${site})`);
  const bag = await fetchExport(stage.service, made.id);
  const folder = await unpack(bag.bytes, stage.folder);
  const scope = JSON.parse(readFileSync(join(folder, "data/scope.json"), "utf8"));
  expect(scope.jobs.map((job: { id: string }) => job.id)).toEqual([inside.jobId]);
  expect(scope.scope).toEqual({ kind: "fleet", within: { models: [], sites: [site] } });
  expect(readFileSync(join(folder, "README.txt"), "utf8")).toContain("within the scope of an");
  const report = await verifyBag(folder, await certificatesOf(stage.service));
  expect(report.faults).toEqual([]);
});

test("another site's evidence is refused as if there were none", async () => {
  const ask = (siteId: string) =>
    as("auditor")
      .post("/api/v1/evidence-exports")
      .send({ scope: { kind: "site", siteId } });
  const guessed = await ask("019ac000-0000-7000-8000-000000000000");
  const reply = await ask(outside.siteId);
  expect([reply.status, reply.body.detail]).toEqual([422, guessed.body.detail]);
  expect((await as("auditor").get(`/api/v1/jobs/${outside.jobId}/evidence-bag`)).status).toBe(404);
  expect((await as("auditor").get(`/api/v1/jobs/${inside.jobId}/evidence-bag`)).status).toBe(200);
});

test("exports of others, over other scopes, are not to be seen", async () => {
  const office = await as("owner")
    .post("/api/v1/evidence-exports")
    .send({ scope: { kind: "fleet" } });
  expect(office.status).toBe(201);
  const seen = await as("auditor").get(`/api/v1/evidence-exports/${office.body.id}`);
  expect(seen.status).toBe(404);
  expect((await as("owner").get("/api/v1/evidence-exports")).body.items.length).toBe(2);
});

test("pieces are fetched within the scope that held when the stream was made", async () => {
  async function* pieces() {
    for (let piece = 0; piece < 3; piece += 1) yield auditScope();
  }
  const stream = withinAudit("an access", () => inSameScope(pieces()));
  const seen: unknown[] = [];
  for await (const scope of stream) seen.push(scope);
  expect(seen).toEqual(["an access", "an access", "an access"]);
  expect(auditScope()).toBeUndefined();
});
