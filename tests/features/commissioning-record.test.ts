// The commissioning record as strangers' programs read it: PDF.js for text and structure (ISO
// 32000-1, 14.7 and 14.8), qpdf and poppler where the machine has them.
import { readdirSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { addTriedJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import {
  fileOf,
  isInstalled,
  type ReadPdf,
  readPdf,
  run,
  squaresIn,
  squeezed,
} from "../support/read-pdf.ts";

const NOTE = "Zoë Łukasz-Şahin, Győr: 2 Ω ± 5 °C ≤ 3 µV; tightened 🔧 twice";
let now = new Date("2026-11-25T17:00:00Z");
let stage: EvidenceStage;
let job: PracticeJob;
let photo: string;
let bytes: Buffer;
let read: ReadPdf;

const pathOf = (jobId = job.jobId): string => `/api/v1/jobs/${jobId}`;
const record = async (query = "", jobId = job.jobId, role: "auditor" | "office" = "office") => {
  const person = stage.service.firm.people[role];
  return fileOf(stage.service.as(person).get(`${pathOf(jobId)}/commissioning-record.pdf${query}`));
};
const listed = async (path: string): Promise<Record<string, unknown>[]> =>
  (await stage.service.as(stage.service.firm.people.office).get(`${pathOf()}/${path}?limit=100`))
    .body.items;
/** Hash of the last entry that is more than a look at the record. */
const headOf = async (): Promise<string> =>
  (await listed("ledger")).findLast(({ text }) => !/record.viewed/.test(text as string))!
    .sha256 as string;
const count = (role: string): number => read.nodes.filter((node) => node.role === role).length;

beforeAll(async () => {
  stage = await startEvidence(() => now);
  ({ job, photo } = await addTriedJob(stage.service, NOTE));
  bytes = await record();
  read = await readPdf(bytes);
});
afterAll(() => stage.stop());

describe("what it says, read back", () => {
  test("serials, plan, people, instruments, photo and the ledger's head", async () => {
    const { body } = await stage.service
      .as(stage.service.firm.people.office)
      .get(`${pathOf()}/close-out`);
    const own = await inFirm(stage.service.db, stage.service.firm.firmId, async (tx) => ({
      units: await tx.jobUnit.findMany({ where: { jobId: job.jobId }, include: { unit: true } }),
      instruments: await tx.instrument.findMany({ include: { calibrations: true } }),
      plan: await tx.planVersion.findFirstOrThrow({ where: { id: job.planVersionId } }),
    }));
    const used = new Set((await listed("answers")).map((answer) => answer.instrumentId));
    expect(own.units).toHaveLength(2);
    for (const { unit } of own.units) expect(read.text).toContain(unit.serial);
    for (const { id, reference, calibrations } of own.instruments) {
      if (!used.has(id)) continue;
      expect(read.text).toContain(squeezed(reference));
      const [calibration] = calibrations;
      expect(read.text).toContain(calibration!.dueOn.toISOString().slice(0, 10));
    }
    const facts = [
      own.plan.sha256,
      "Wall shelf with two packs",
      "installer person",
      "manager person",
    ];
    const heads = [body.ledgerSha256, await headOf(), photo];
    for (const fact of [...facts, ...heads, "Rested pack; the maker accepts it."]) {
      expect(read.text).toContain(squeezed(fact));
    }
  });

  test("every reading, every verdict that is no plain pass, the earlier attempt too", async () => {
    const answers = await listed("answers");
    expect(answers.length).toBe(28);
    for (const { value, verdict } of answers as {
      value: { number?: string | number; unit?: string };
      verdict: { outcome: string; sentence: string };
    }[]) {
      if (value.unit !== undefined && value.number !== undefined) {
        expect(read.text).toContain(squeezed(`${value.number} ${value.unit}`));
      }
      if (verdict.outcome !== "pass") expect(read.text).toContain(squeezed(verdict.sentence));
    }
    for (const value of ["36.9V", "51.3V", "37.25V", "Releasedbyconcession."]) {
      expect(read.text).toContain(value);
    }
    expect(read.text).toContain(squeezed("2 attempts, the last counts"));
  });

  test("accents and signs of measure; what the font cannot show is told", () => {
    const shown = NOTE.replace("🔧", "?");
    expect(read.text).toContain(squeezed(shown));
    expect(read.text).toContain(squeezed("Some signs of the record have no shape"));
  });

  test("in Spanish and on Letter, where that is wished", async () => {
    const spanish = await readPdf(await record("?language=es&size=letter"));
    expect(spanish).toMatchObject({ language: "es", widthPt: 612 });
    expect(spanish.title).toMatch(/^Acta de puesta en servicio J-/);
    expect(spanish.text).toContain("Enunaemergencia");
    expect(read).toMatchObject({ language: "en" });
    expect(read.widthPt).toBeCloseTo(595.28, 1);
  });
});

describe("how it is made", () => {
  test("its structure is one tree under one Document, with tables and pictures told apart", () => {
    expect(read.isMarked).toBe(true);
    expect(new Set(read.roots)).toEqual(new Set(["Document"]));
    expect(count("H1")).toBe(1);
    expect(count("H2")).toBeGreaterThanOrEqual(10);
    expect(count("TH")).toBeGreaterThan(30);
    expect(count("TD")).toBeGreaterThan(100);
    const figures = read.nodes.filter(({ role }) => role === "Figure");
    expect(figures).toHaveLength(2);
    expect(figures.filter(({ alt }) => !alt)).toEqual([]);
  });

  test("the same record gives the same bytes, looked at or not; another gives others", async () => {
    const before = now;
    now = new Date("2026-12-24T09:00:00Z");
    await stage.service.as(stage.service.firm.people.auditor).get(pathOf());
    expect((await record()).equals(bytes)).toBe(true);
    now = before;
    expect(read.made).toMatch(/^D:20261125170000/);
    const reopening = { reason: "The label was misread." };
    const other = await addPracticeJob(stage.service);
    const { installer, manager } = stage.service.firm.people;
    const client = stage.service.as(installer);
    await client.post(`${pathOf(other.jobId)}/answers`).send({ answers: other.answers() });
    await client.post(`${pathOf(other.jobId)}/close-out`);
    const closed = await record("", other.jobId);
    await stage.service
      .as(manager)
      .post(`${pathOf(other.jobId)}/reopening`)
      .send(reopening);
    const open = await record("", other.jobId);
    expect(open.equals(closed)).toBe(false);
    expect((await readPdf(closed)).text).not.toContain("DRAFT");
    const draft = await readPdf(open);
    const marks = draft.text.split("DRAFT–notclosed").length - 1;
    expect(marks).toBe(2 * draft.pages);
    expect(draft.text).toContain(squeezed(reopening.reason));
  });

  test.skipIf(!isInstalled("qpdf"))("qpdf finds no fault", async () => {
    const path = join(stage.folder, "record.pdf");
    await writeFile(path, bytes);
    expect(run("qpdf", "--check", path)).toMatchObject({ status: 0 });
  });

  test.skipIf(!isInstalled("pdfinfo"))("poppler reads the same tree", async () => {
    const path = join(stage.folder, "record.pdf");
    await writeFile(path, bytes);
    const { out } = run("pdfinfo", "-struct", path);
    expect(out.match(/^\S.*$/gm)).toEqual(["Document"]);
    expect(out.match(/^ +TD\b/gm)).toHaveLength(count("TD"));
    expect(run("pdfinfo", path).out).toMatch(/Tagged: +yes/);
  });

  test.skipIf(!isInstalled("pdftoppm"))("the square leads to the ledger's head", async () => {
    await writeFile(join(stage.folder, "record.pdf"), bytes);
    run(
      "pdftoppm",
      "-r",
      "100",
      "-png",
      join(stage.folder, "record.pdf"),
      join(stage.folder, "page"),
    );
    const pages = readdirSync(stage.folder).filter((name) => name.endsWith(".png"));
    const found = await Promise.all(pages.map((name) => squaresIn(join(stage.folder, name))));
    expect(found.flat()).toEqual([`https://alder.example/check?head=${await headOf()}`]);
  });
});

describe("who reads it", () => {
  test("an auditor's look is on the ledger; another firm finds nothing", async () => {
    const own = await addPracticeJob(stage.service);
    await record("", own.jobId, "auditor");
    const { people } = stage.service.firm;
    const ledger = await stage.service.as(people.office).get(`${pathOf(own.jobId)}/ledger`);
    const kinds = ledger.body.items.map(({ text }: { text: string }) => JSON.parse(text).kind);
    expect(kinds).toEqual(["record.viewed"]);
    const other = await stage.service.addFirm("birch");
    const path = `${pathOf()}/commissioning-record.pdf`;
    expect((await stage.service.as(other.people.office).get(path)).status).toBe(404);
    expect((await stage.service.anonymous.get(path)).status).toBe(401);
  });
});
