// Whatever customers, firms, sites and files are called: a bag's own names fit every system, its
// manifests are what RFC 8493, 2.1.3, asks for, and the README's commands work in a shell of any
// locale, wherever the bag was unpacked.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { openFile } from "../../src/cli/verify-file.ts";
import { inFirm } from "../../src/db/scope.ts";
import { openZip } from "../../src/verify/zip.ts";
import {
  addProvenJob,
  downloadBag,
  type EvidenceStage,
  sendPhoto,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { exportScope, fetchExport } from "../support/evidence-exports.ts";
import { filesIn, missingTools, readmeScript, runReadme } from "../support/evidence-tampering.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";

/** Names as people and their systems make them. */
const NAMES = [
  "Zoë Łukasz-Şahin’s house, ñ 100 %25",
  "../../../etc/passwd",
  "..\\..\\con.txt",
  "‮gpj.exe‬ שרטוט مخطط",
  "👩🏽‍🔧 🔋 plan (1)",
  "-rf --  'quoted' \"twice\" $(date) `date` ; & | * ?",
  "CON",
  "é".repeat(60),
];
const ODD_FOLDER = "Ötzi's bag (1) $HOME – 50 %  ‮x";
let stage: EvidenceStage;
let job: PracticeJob;
let bags: { what: string; folder: string; zip: string }[];

beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  job = await addProvenJob(stage.service);
  const other = await addPracticeJob(stage.service);
  await sendPhoto(stage.service, other.jobId, 30);
  await callEverything([job, other]);
  for (const [index, name] of NAMES.entries()) await file(name, index);
  const within = join(stage.folder, ODD_FOLDER);
  mkdirSync(within);
  const fleet = await exportScope(stage.service, { kind: "fleet" });
  const one = await downloadBag(stage.service, job.jobId);
  const many = (await fetchExport(stage.service, fleet.id)).bytes;
  bags = [];
  for (const [what, bytes] of [["one job", one] as const, ["the fleet", many] as const]) {
    const folder = await unpack(bytes, within);
    bags.push({ what, folder, zip: `${folder}.zip` });
  }
});
afterAll(() => stage.stop());

/** Past the interface, which refuses some of it: what came in another way has to go out too. */
async function callEverything(jobs: readonly PracticeJob[]) {
  const { firmId } = stage.service.firm;
  const [first = "", path = "", , bidi = "", emoji = "", shell = ""] = NAMES;
  await inFirm(stage.service.db, firmId, async (tx) => {
    await tx.firm.update({ where: { id: firmId }, data: { name: `${first}\r\nX-Firm: ${bidi}` } });
    await tx.customer.updateMany({ where: { firmId }, data: { name: `${path}\n${emoji}` } });
    const site = { name: bidi, addressLine: shell, locality: `${emoji}\r\n` };
    await tx.site.updateMany({ where: { firmId }, data: site });
    await tx.job.updateMany({ where: { firmId }, data: { title: `${shell}\n${path}` } });
    for (const [index, { jobId: id }] of jobs.entries()) {
      const reference = ["../J 1\r\n‮%0A", "LPT1"][index] ?? "";
      await tx.job.update({ where: { firmId_id: { firmId, id } }, data: { reference } });
    }
  });
}

const PDF = (index: number) => Buffer.from(`%PDF-1.7\n% ${index}\ntrailer\n<<>>\n%%EOF\n`);

async function file(name: string, index: number) {
  const bytes = PDF(index);
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const path = `/api/v1/jobs/${job.jobId}/documents/${sha256}?name=${encodeURIComponent(name)}`;
  const office = stage.service.as(stage.service.firm.people.office);
  const reply = await office.put(path).set("content-type", "application/pdf").send(bytes);
  expect([name, reply.status]).toEqual([name, 201]);
}

describe.each(["one job", "the fleet"])("the bag of %s", (what) => {
  const bag = () => bags.find((one) => one.what === what)!;

  test("has names that every system can write, and none of anybody's", async () => {
    const { names } = await openZip(await openFile(bag().zip));
    expect(names.length).toBeGreaterThan(15);
    for (const name of names) {
      expect(name).toMatch(/^(?:README\.txt|[a-z0-9_-][a-z0-9._-]*(?:\/[a-z0-9_-][a-z0-9._-]*)*)$/);
      for (const part of name.split("/")) {
        expect(part.length).toBeLessThan(100);
        expect(part).not.toMatch(/^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)|\.$/i);
      }
      expect(name.length).toBeLessThan(200);
    }
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(names.length);
    expect(readFileSync(bag().zip).includes("passwd/")).toBe(false);
  });

  test("lists in its manifests each file under the very name it has", () => {
    const { folder } = bag();
    const payload = filesIn(folder).filter((name) => name.startsWith("data/"));
    for (const algorithm of ["sha256", "sha512"]) {
      const lines = readFileSync(join(folder, `manifest-${algorithm}.txt`), "utf8").split("\n");
      expect(lines.pop()).toBe("");
      const listed = lines.map((line) => /^([0-9a-f]+) {2}([^%\r]+)$/.exec(line) ?? []);
      expect(listed.map(([, , name]) => name)).toEqual(payload);
      for (const [, sum, name = ""] of listed) {
        const bytes = readFileSync(join(folder, name));
        expect(sum).toBe(createHash(algorithm).update(bytes).digest("hex"));
      }
    }
  });

  test("says in bag-info.txt who it is from, each on a line of its own", () => {
    const info = readFileSync(join(bag().folder, "bag-info.txt"), "utf8");
    const lines = info.trimEnd().split("\n");
    // RFC 8493, 2.2.2: a label, a colon, a value; no line end but those between them.
    expect(lines.filter((line) => !/^[A-Z][A-Za-z-]*: [^\r]+$/.test(line))).toEqual([]);
    expect(lines.filter((line) => line.startsWith("X-Firm"))).toEqual([]);
    expect(lines[0]).toMatch(/^Source-Organization: Zoë .* 100 %25 X-Firm: /);
  });

  test("verifies, and by the README's commands in any locale", async (context) => {
    const { folder } = bag();
    expect((await verifyBag(folder)).faults).toEqual([]);
    expect((await verifyBag(bag().zip)).faults).toEqual([]);
    const missing = missingTools();
    context.skip(missing.length > 0, `this machine has no ${missing.join(", ")}`);
    for (const locale of ["C", "C.UTF-8"]) {
      const { whole, said } = runReadme(readmeScript(folder), folder, "", { locale });
      expect([locale, whole, said]).toEqual([locale, true, expect.not.stringContaining("FAILED")]);
    }
  });
});

describe("files fetched one by one", () => {
  const office = () => stage.service.as(stage.service.firm.people.office);

  test("a document leaves under a name without path, within 255 bytes, on one line", async () => {
    for (const [index] of NAMES.entries()) {
      const sha256 = createHash("sha256").update(PDF(index)).digest("hex");
      const { headers } = await office().get(`/api/v1/jobs/${job.jobId}/documents/${sha256}`);
      const said = headers["content-disposition"] as string;
      expect(said).toMatch(/^attachment; filename="[A-Za-z0-9 ._-]+"; filename\*=UTF-8''[!-~]+$/);
      const name = decodeURIComponent(said.split("UTF-8''")[1] ?? "");
      expect([name, name.endsWith(".pdf"), basename(name)]).toEqual([name, true, name]);
      expect(name).not.toMatch(/[\\:\u200e\u200f\u202a-\u202e\u2066-\u2069]|^\.|^con\./i);
      expect(Buffer.byteLength(name)).toBeLessThanOrEqual(255);
    }
  });

  test("names with line ends are refused where they are typed", async () => {
    const path = `/api/v1/jobs/${job.jobId}/documents/${"0".repeat(64)}`;
    const named = `?name=${encodeURIComponent("a\r\nSet-Cookie: b")}`;
    const reply = await office()
      .put(path + named)
      .set("content-type", "application/pdf")
      .send("x");
    expect(reply.status).toBe(422);
  });

  test("the bag itself is called by what is left of an odd reference", async () => {
    const auditor = stage.service.as(stage.service.firm.people.auditor);
    const { headers } = await auditor.get(`/api/v1/jobs/${job.jobId}/evidence-bag`).buffer(true);
    expect(headers["content-disposition"]).toMatch(/^attachment; filename="EV--J-1-0A-\d+\.zip"$/);
  });
});
