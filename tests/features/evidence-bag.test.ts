import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { rm } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import {
  addProvenJob,
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  sendPhoto,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { filesIn, missingTools, readmeScript, runReadme } from "../support/evidence-tampering.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { fileOf } from "../support/read-pdf.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
let now = NOW;
let stage: EvidenceStage;
let job: PracticeJob;
let bag: Buffer;
let folder: string;

beforeAll(async () => {
  stage = await startEvidence(() => now);
  job = await addProvenJob(stage.service);
  bag = await downloadBag(stage.service, job.jobId);
  folder = await unpack(bag, stage.folder);
});
afterAll(() => stage.stop());

const read = (name: string): string => readFileSync(join(folder, name), "utf8");
const listing = (): string[] => filesIn(folder);
const manifestOf = (algorithm: string, kind = "manifest"): Map<string, string> =>
  new Map(
    read(`${kind}-${algorithm}.txt`)
      .trimEnd()
      .split("\n")
      .map((line) => line.split("  ").reverse() as [string, string]),
  );

describe("the structure of the bag (RFC 8493)", () => {
  test("2.1.1: bagit.txt has exactly the two lines", () => {
    expect(read("bagit.txt")).toBe("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
  });

  test.each(["sha256", "sha512"])("2.1.3: manifest-%s.txt lists every payload file", (name) => {
    const listed = manifestOf(name);
    const payload = listing().filter((file) => file.startsWith("data/"));
    expect([...listed.keys()]).toEqual(payload);
    for (const [file, sum] of listed) {
      const bytes = readFileSync(join(folder, file));
      expect(createHash(name).update(bytes).digest("hex")).toBe(sum);
    }
  });

  test("2.2.1: tag manifests list the other tag files and no tag manifest", () => {
    const tags = ["README.txt", "bag-info.txt", "bagit.txt", "certs/signer.pem"];
    const manifests = ["manifest-sha256.txt", "manifest-sha512.txt"];
    expect([...manifestOf("sha256", "tagmanifest").keys()]).toEqual([...tags, ...manifests]);
    expect([...manifestOf("sha512", "tagmanifest").keys()]).toEqual([
      ...tags,
      ...manifests,
      "tagmanifest-sha256.txt.p7s",
    ]);
  });

  test("2.2.2: Payload-Oxum counts octets and files, and the date is that of the record", () => {
    const payload = listing().filter((file) => file.startsWith("data/"));
    const octets = payload.reduce((sum, f) => sum + readFileSync(join(folder, f)).length, 0);
    expect(read("bag-info.txt")).toContain(`Payload-Oxum: ${octets}.${payload.length}\n`);
    expect(read("bag-info.txt")).toContain("Bagging-Date: 2026-11-25\n");
  });

  test("the payload is what the record states, under plain names", () => {
    const payload = listing().filter((file) => file.startsWith("data/"));
    expect(payload.filter((file) => !/^[a-z0-9._/-]+$/.test(file))).toEqual([]);
    expect(payload.map((file) => file.replace(/[0-9a-f]{64}/, "SHA"))).toEqual([
      "data/certificate.pdf",
      "data/ledger/entries.jsonl",
      "data/ledger/head.txt",
      "data/ledger/texts.jsonl",
      "data/photos/SHA.png",
      "data/readings.csv",
      ...["answers", "close-out", "concessions", "facts", "instruments", "job", "people"].map(
        (name) => `data/records/${name}.json`,
      ),
      ...["photos", "plan", "snags", "units", "verdicts"].map(
        (name) => `data/records/${name}.json`,
      ),
    ]);
  });
});

test("the certificate is the commissioning record that the service shows", async () => {
  const path = `/api/v1/jobs/${job.jobId}/commissioning-record.pdf`;
  const shown = await fileOf(stage.service.as(stage.service.firm.people.office).get(path));
  expect(readFileSync(join(folder, "data/certificate.pdf")).equals(shown)).toBe(true);
});

describe("the same record", () => {
  test("exports fifty times with the same bytes, views by an auditor or not", async () => {
    const digest = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");
    const digests = new Set([digest(bag)]);
    const { auditor } = stage.service.firm.people;
    for (let round = 0; round < 50; round += 1) {
      now = new Date(NOW.getTime() + round * 3_600_000);
      if (round % 10 === 0) await stage.service.as(auditor).get(`/api/v1/jobs/${job.jobId}`);
      digests.add(digest(await downloadBag(stage.service, job.jobId)));
    }
    now = NOW;
    expect([...digests]).toEqual([digest(bag)]);
  }, 120_000);

  test("exports differently once it has changed, and that bag verifies too", async () => {
    const open = await addPracticeJob(stage.service);
    const { installer, manager } = stage.service.firm.people;
    const path = `/api/v1/jobs/${open.jobId}`;
    const half = open.answers().slice(0, 6);
    await stage.service.as(installer).post(`${path}/answers`).send({ answers: half });
    const before = await downloadBag(stage.service, open.jobId);
    await sendPhoto(stage.service, open.jobId, 10);
    const after = await downloadBag(stage.service, open.jobId);
    expect(after.equals(before)).toBe(false);
    const reopened = await addProvenJob(stage.service);
    const reason = { reason: "The label was misread." };
    await stage.service.as(manager).post(`/api/v1/jobs/${reopened.jobId}/reopening`).send(reason);
    for (const taken of [before, after, await downloadBag(stage.service, reopened.jobId)]) {
      const unpacked = await unpack(taken, stage.folder);
      expect((await verifyBag(unpacked)).faults).toEqual([]);
    }
  });
});

describe("verify", () => {
  test("finds the bag of a job whole on which nothing was done yet", async () => {
    const bare = await addPracticeJob(stage.service);
    const empty = await unpack(await downloadBag(stage.service, bare.jobId), stage.folder);
    expect(readFileSync(join(empty, "data/ledger/entries.jsonl"), "utf8")).toBe("");
    expect(await verifyBag(empty)).toMatchObject({ faults: [], figures: { entries: 0 } });
    if (missingTools().length > 0) return;
    expect(runReadme(readmeScript(empty), empty, "")).toMatchObject({ whole: true });
  });

  test("finds a whole bag whole, as a folder and as a ZIP file, and names the key", async () => {
    const trusted = await certificatesOf(stage.service);
    for (const path of [folder, `${folder}.zip`]) {
      const report = await verifyBag(path, trusted);
      expect(report.faults).toEqual([]);
      expect(trusted).toContain(report.signedBy);
      expect(report.figures.verdicts).toBeGreaterThan(20);
    }
  });
});

describe("who may take the evidence away", () => {
  test.each([
    ["auditor", 200],
    ["office", 200],
    ["manager", 200],
    ["owner", 200],
    ["installer", 403],
  ] as const)("%s: %d", async (role, status) => {
    const person = stage.service.firm.people[role];
    const reply = await stage.service.as(person).get(`/api/v1/jobs/${job.jobId}/evidence-bag`);
    expect(reply.status).toBe(status);
  });

  test("another firm's job is not there", async () => {
    const other = await stage.service.addFirm("birch");
    const reply = await stage.service
      .as(other.people.auditor)
      .get(`/api/v1/jobs/${job.jobId}/evidence-bag`);
    expect(reply.status).toBe(404);
  });

  test("a photo that is gone from the data folder is told before a byte leaves", async () => {
    const bare = await addPracticeJob(stage.service);
    const sha256 = await sendPhoto(stage.service, bare.jobId, 77);
    const { firmId, people } = stage.service.firm;
    await rm(join(stage.folder, "data/photos", firmId, sha256.slice(0, 2), sha256));
    const reply = await stage.service
      .as(people.office)
      .get(`/api/v1/jobs/${bare.jobId}/evidence-bag`);
    expect([reply.status, reply.body.type]).toEqual([409, "/problems/evidence-damaged"]);
    expect(reply.body.photo).toBe(sha256);
  });
});
