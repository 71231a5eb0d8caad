import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import {
  addProvenJob,
  certificatesOf,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { exportScope, fetchExport, whenMade } from "../support/evidence-exports.ts";
import {
  filesIn,
  missingTools,
  readmeScript,
  resign,
  runReadme,
  strangersKey,
} from "../support/evidence-tampering.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { pointers } from "../support/reading.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const PATH = "/api/v1/evidence-exports";
let stage: EvidenceStage;
let closed: PracticeJob;
let bare: PracticeJob;

beforeAll(async () => {
  stage = await startEvidence(() => NOW);
  closed = await addProvenJob(stage.service);
  bare = await addPracticeJob(stage.service);
});
afterAll(() => stage.stop());

const as = (role: "auditor" | "office" | "installer" | "manager") =>
  stage.service.as(stage.service.firm.people[role]);
const takeOut = async (scope: object): Promise<string> => {
  const { id } = await exportScope(stage.service, scope);
  return unpack((await fetchExport(stage.service, id)).bytes, stage.folder);
};
const foldersIn = (folder: string): number =>
  new Set(filesIn(folder).flatMap((name) => /^data\/jobs\/[^/]+/.exec(name) ?? [])).size;

describe("a scope", () => {
  test.each<[string, () => object, number]>([
    ["the whole fleet", () => ({ kind: "fleet" }), 2],
    ["a site", () => ({ kind: "site", siteId: closed.siteId }), 1],
    ["a unit", () => ({ kind: "unit", unitId: closed.packIds[0] }), 1],
    ["a period", () => ({ kind: "period", from: "2026-11-25", to: "2026-11-25" }), 1],
  ])("%s is one bag that README and verify find whole", async (_name, scope, jobs) => {
    const folder = await takeOut(scope());
    expect(foldersIn(folder)).toBe(jobs);
    const trusted = await certificatesOf(stage.service);
    const report = await verifyBag(folder, trusted);
    expect(report.faults).toEqual([]);
    expect(report.figures.verdicts).toBeGreaterThan(20);
    expect((await verifyBag(`${folder}.zip`, trusted)).faults).toEqual([]);
    if (missingTools().length > 0) return;
    expect(runReadme(readmeScript(folder), folder, "")).toMatchObject({ whole: true });
  });

  test("without a job in it, or of another firm, is refused with its field", async () => {
    const { service } = stage;
    const other = await service.addFirm("birch");
    const refusals = [
      await as("auditor")
        .post(PATH)
        .send({ scope: { kind: "period", from: "2020-01-01", to: "2020-12-31" } }),
      await service
        .as(other.people.auditor)
        .post(PATH)
        .send({
          scope: { kind: "site", siteId: closed.siteId },
        }),
      await as("auditor")
        .post(PATH)
        .send({ scope: { kind: "period", from: "2026-02-01", to: "2026-01-01" } }),
    ];
    expect(refusals.map((reply) => [reply.status, ...pointers(reply)])).toEqual([
      [422, "/body/scope/kind"],
      [422, "/body/scope/siteId"],
      [422, "/body/scope/to"],
    ]);
  });

  test("is the auditor's and the office's to ask for, not an installer's", async () => {
    const scope = { kind: "site", siteId: bare.siteId };
    const made = await as("office").post(PATH).send({ scope });
    expect(made.status).toBe(201);
    expect((await as("installer").post(PATH).send({ scope })).status).toBe(403);
    await whenMade(stage.service, made.body.id);
    const other = await stage.service.addFirm("cedar");
    const { auditor } = other.people;
    const foreign = await stage.service.as(auditor).get(`${PATH}/${made.body.id}`);
    expect(foreign.status).toBe(404);
    expect((await stage.service.as(auditor).get(PATH)).body.items).toEqual([]);
  });
});

describe("a bag of several jobs that was changed and signed again", () => {
  test.each<[string, (folder: string, jobs: string[]) => void]>([
    ["without one of the jobs", (folder, [first]) => removeJob(folder, first!)],
    ["with two ledgers in each other's place", swapLedgers],
    ["with another head in its list", (folder) => changeHead(folder)],
    ["with a file of no job", (folder) => writeFileSync(join(folder, "data/more.txt"), "more")],
  ])("%s does not verify", async (_name, change) => {
    const folder = await takeOut({ kind: "fleet" });
    const { jobs } = scopeOf(folder);
    expect((await verifyBag(folder)).faults).toEqual([]);
    change(
      folder,
      jobs.map((job) => job.folder),
    );
    await resign(folder, await strangersKey());
    const { faults } = await verifyBag(folder);
    expect(faults[0]?.file).toMatch(/^data\/(?:jobs|scope|more)/);
  });
});

const scopeOf = (folder: string): { jobs: { folder: string; head: string }[] } =>
  JSON.parse(readFileSync(join(folder, "data/scope.json"), "utf8"));

const removeJob = (folder: string, job: string): void =>
  rmSync(join(folder, job), { recursive: true });

function swapLedgers(folder: string, [first = "", second = ""]: string[]): void {
  const names = [first, second].map((job) => join(folder, job, "ledger/entries.jsonl"));
  const [one, two] = names.map((name) => readFileSync(name));
  writeFileSync(names[0]!, two!);
  writeFileSync(names[1]!, one!);
}

function changeHead(folder: string): void {
  const path = join(folder, "data/scope.json");
  const { head } = scopeOf(folder).jobs[0]!;
  const other = `${head.startsWith("0") ? "1" : "0"}${head.slice(1)}`;
  writeFileSync(path, readFileSync(path, "utf8").replace(head, other));
}
