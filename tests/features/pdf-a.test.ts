// The papers against ISO 19005-2 (PDF/A-2), level A, clause by clause, from memory; qpdf and
// poppler beside it where a machine has them. No validator of others was at hand.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { addTriedJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import { pdfAFaults } from "../support/pdf-a.ts";
import { readObjects } from "../support/pdf-file.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { fileOf, isInstalled, readPdf, run } from "../support/read-pdf.ts";

const FIRM = "Ash & Søn <Łódź> “9”\u0007 ]]>";
const PAPERS = ["commissioning-record", "handover-pack"];
const CASES = PAPERS.flatMap((paper) =>
  ["en", "es"].flatMap((language) =>
    ["a4", "letter"].map((size): [string, string, string] => [paper, language, size]),
  ),
);
let stage: EvidenceStage;
let jobId: string;

beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  const { firmId } = stage.service.firm;
  await inFirm(stage.service.db, firmId, (tx) =>
    tx.firm.update({ where: { id: firmId }, data: { name: FIRM } }),
  );
  const note = "Zoë Łukasz-Şahin, Győr: 2 Ω ± 5 °C ≤ 3 µV; tightened 🔧 twice, fi ffl مرحبا";
  jobId = (await addTriedJob(stage.service, note)).job.jobId;
});
afterAll(() => stage.stop());

const paper = async (name: string, query: string, id = jobId) => {
  const person = stage.service.firm.people.office;
  return fileOf(stage.service.as(person).get(`/api/v1/jobs/${id}/${name}.pdf${query}`));
};

describe("a paper is PDF/A-2a, as far as is looked at", () => {
  test.each(CASES)("%s, %s, %s", async (name, language, size) => {
    const bytes = await paper(name, `?language=${language}&size=${size}`);
    expect(pdfAFaults(bytes)).toEqual([]);
    const read = await readPdf(bytes);
    expect([read.language, read.widthPt]).toEqual([language, size === "a4" ? 595.28 : 612]);
  });

  test("a draft too, with its mark across every page", async () => {
    const { jobId: open } = await addPracticeJob(stage.service);
    expect(pdfAFaults(await paper("commissioning-record", "", open))).toEqual([]);
  });

  test.skipIf(!isInstalled("qpdf") || !isInstalled("pdffonts"))(
    "qpdf and poppler agree: no fault, tagged, every font within and readable",
    async () => {
      const path = join(stage.folder, "paper.pdf");
      writeFileSync(path, await paper("commissioning-record", ""));
      expect(run("qpdf", "--check", path)).toMatchObject({ status: 0 });
      expect(run("pdfinfo", path).out).toMatch(
        /Tagged: +yes[\s\S]*JavaScript: +no[\s\S]*Encrypted: +no/,
      );
      const fonts = run("pdffonts", path).out.trim().split("\n").slice(2);
      expect(fonts.length).toBeGreaterThan(1);
      expect(fonts.filter((line) => !/ yes yes yes /.test(line))).toEqual([]);
    },
  );
});

describe("the check itself notices", () => {
  test.each<[string, string, string, RegExp]>([
    ["no mark of a tagged file", "/Marked true", "/Marked null", /^6\.7\.2/],
    ["another output intent", "GTS_PDFA1", "GTS_PDFX1", /^6\.2\.3/],
    ["another part", "<pdfaid:part>2<", "<pdfaid:part>1<", /^6\.6\.4/],
    ["a lower level", "conformance>A<", "conformance>B<", /^6\.6\.4/],
    ["a script", "/Dests", "/JS   ", /^6\.5\.1/],
    ["no language", "/Lang (en)", "/Lung (en)", /^6\.7\.4/],
    ["a font that reads as nothing", "/ToUnicode", "/ToUnicorn", /^6\.2\.11\.7\.2/],
    ["a font that is not within", "/FontFile2", "/FontFile9", /^6\.2\.11\.4\.1/],
    ["colours beyond the profile", "/ColorSpace /DeviceRGB", "/ColorSpace [/Pattern]", /^6\.2\.4/],
    ["a figure without words", "/Alt ", "/Alx ", /^6\.7\.7/],
    ["bad XML", "&amp;", "&ampx", /^6\.6\.2\.1/],
    ["a header without its second line", "\n%\xff", "\n%a", /^6\.1\.2/],
    ["no id", "/ID [", "/IX [", /^6\.1\.3/],
  ])("%s", async (_what, from, to, clause) => {
    const text = (await paper("commissioning-record", "?language=en")).toString("latin1");
    const changed = text.replace(from, to.padEnd(from.length));
    expect([changed.length, changed === text]).toEqual([text.length, false]);
    const faults = pdfAFaults(Buffer.from(changed, "latin1"));
    expect(faults.some((fault) => clause.test(fault))).toBe(true);
  });

  test("a file whose objects are not where its table says", async () => {
    const bytes = await paper("commissioning-record", "?language=en");
    const shifted = Buffer.concat([bytes.subarray(0, 20), Buffer.from(" "), bytes.subarray(20)]);
    expect(() => readObjects(shifted)).toThrow();
  });
});
