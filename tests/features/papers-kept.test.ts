import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readConfig } from "../../src/config.ts";
import { inFirm } from "../../src/db/scope.ts";
import { photoSums } from "../../src/features/photos/store.ts";
import { drawPapers } from "../../src/runs/draw-papers.ts";
import { addProvenJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";

const NOW = new Date();
let stage: EvidenceStage;
let closed: PracticeJob;
let folder: string;

beforeAll(async () => {
  stage = await startEvidence(() => NOW);
  closed = await addProvenJob(stage.service);
  await addPracticeJob(stage.service);
  folder = join(stage.folder, "data", "papers", stage.service.firm.firmId, closed.jobId);
});
afterAll(() => stage.stop());

const office = () => stage.service.as(stage.service.firm.people.office);
const read = async (query = "") => {
  const path = `/api/v1/jobs/${closed.jobId}/commissioning-record.pdf${query}`;
  const { status, body } = await office().get(path).responseType("blob");
  expect(status).toBe(200);
  return body as Buffer;
};
const draw = (now: Date) => {
  const data = join(stage.folder, "data");
  const config = readConfig({ DATA_DIR: data, PUBLIC_URL: "https://alder.example" }, data);
  return drawPapers(stage.service.db, config, now);
};

test("the record of a closed job is drawn once by the run, and then lies ready", async () => {
  expect(existsSync(folder)).toBe(false);
  const later = new Date(NOW.getTime() + 60_000);
  expect(await draw(later)).toBe(1);
  expect(await draw(later)).toBe(0);
  const [name] = readdirSync(folder);
  expect(await read()).toEqual(readFileSync(join(folder, name!)));
  expect(readdirSync(folder)).toEqual([name]);
  rmSync(folder, { recursive: true });
  expect(await draw(new Date(NOW.getTime() + 25 * 3_600_000))).toBe(0);
});

test("one removed is drawn anew with the same bytes; four of a job are kept", async () => {
  const before = await read();
  rmSync(folder, { recursive: true });
  expect(await read()).toEqual(before);
  for (const query of ["?language=es", "?size=letter", "?language=es&size=letter"]) {
    await read(query);
  }
  expect(readdirSync(folder)).toHaveLength(4);
  writeFileSync(join(folder, "a.pdf.of-a-crash.part"), "half");
  const owner = stage.service.as(stage.service.firm.people.owner);
  const { headers } = await owner.get("/api/v1/firm");
  const edit = owner.patch("/api/v1/firm").set("if-match", headers.etag as string);
  expect((await edit.send({ colour: "#224466" })).status).toBe(200);
  expect(await read()).not.toEqual(before);
  expect(readdirSync(folder).filter((name) => name.endsWith(".pdf"))).toHaveLength(4);
});

test("the second checksum of a photo is worked out as it comes in", async () => {
  const { firmId } = stage.service.firm;
  const sums = await inFirm(stage.service.db, firmId, (tx) => photoSums(tx, closed.jobId));
  expect(sums.size).toBe(1);
  for (const [sha256, sha512] of sums) {
    const path = join(stage.folder, "data", "photos", firmId, sha256.slice(0, 2), sha256);
    expect(sha512).toBe(createHash("sha512").update(readFileSync(path)).digest("hex"));
  }
});
