// The handover pack as PDF.js reads it.
import { createHash } from "node:crypto";
import sharp from "sharp";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { addTriedJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { fileOf, readPdf, squeezed } from "../support/read-pdf.ts";

let stage: EvidenceStage;
let job: PracticeJob;
const pack = async (query = ""): Promise<Buffer> =>
  fileOf(
    stage.service
      .as(stage.service.firm.people.office)
      .get(`/api/v1/jobs/${job.jobId}/handover-pack.pdf${query}`),
  );

beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  ({ job } = await addTriedJob(stage.service, "steady"));
  const paper = Buffer.from("%PDF-1.4\n% the maker's instructions\n%%EOF\n");
  const sha256 = createHash("sha256").update(paper).digest("hex");
  const sent = await stage.service
    .as(stage.service.firm.people.office)
    .put(`/api/v1/jobs/${job.jobId}/documents/${sha256}?name=Instructions%20Kestrel%205.pdf`)
    .set("content-type", "application/pdf")
    .send(paper);
  if (sent.status !== 201) throw new Error(`the document was refused: ${sent.text}`);
});
afterAll(() => stage.stop());

test("tells the customer what to do in an emergency before anything else", async () => {
  const { text } = await readPdf(await pack());
  const order = ["Inanemergency", "callthe", "Whatwasinstalled", "Concessions", "Signatures"];
  const places = order.map((words) => text.indexOf(words));
  expect(places.filter((place) => place < 0)).toEqual([]);
  expect(places).toEqual(places.toSorted((left, right) => left - right));
  for (const sentence of [
    "The maker's instructions, local codes and law",
    "Never open a unit",
    "Water at or near the units",
  ]) {
    expect(text).toContain(squeezed(sentence));
  }
});

test("names customer, units, concession and the papers filed with the job", async () => {
  const { text, roots, nodes, title } = await readPdf(await pack());
  const own = await inFirm(stage.service.db, stage.service.firm.firmId, async (tx) => ({
    units: await tx.jobUnit.findMany({ where: { jobId: job.jobId }, include: { unit: true } }),
    job: await tx.job.findFirstOrThrow({
      where: { id: job.jobId },
      include: { site: { include: { customer: true } } },
    }),
  }));
  expect(title).toBe(`Handover pack ${own.job.reference}`);
  const { customer, addressLine } = own.job.site;
  const facts = [
    customer.name,
    addressLine,
    "Instructions Kestrel 5.pdf",
    "27 hold points applied",
  ];
  for (const fact of [...facts, ...own.units.map(({ unit }) => unit.serial)]) {
    expect(text).toContain(squeezed(fact));
  }
  expect(text).toContain(squeezed("Rested pack; the maker accepts it."));
  expect(new Set(roots)).toEqual(new Set(["Document"]));
  expect(nodes.filter(({ role }) => role === "H1")).toHaveLength(1);
});

test("is made in Spanish and on Letter where wished, the same bytes each time", async () => {
  const wished = "?language=es&size=letter";
  const [first, second] = [await pack(wished), await pack(wished)];
  expect(first.equals(second)).toBe(true);
  const { text, widthPt, language } = await readPdf(first);
  expect({ widthPt, language }).toEqual({ widthPt: 612, language: "es" });
  expect(text).toContain("Quéseinstaló");
});

test("carries the firm's mark and how it is reached, on both papers", async () => {
  const { owner } = stage.service.firm.people;
  const client = stage.service.as(owner);
  const { headers } = await client.get("/api/v1/firm");
  const branding = {
    ...{ address: "4 Łódź Row\nThornbeck", phone: "01632 960 017", registrations: "Reg. 0042" },
    ...{ email: "desk@alder.example", website: "https://alder.example", colour: "#7a1f3d" },
  };
  await client
    .patch("/api/v1/firm")
    .set("if-match", headers.etag as string)
    .send(branding);
  const drawn = { width: 300, height: 90, channels: 4, background: "#7a1f3d80" } as const;
  const mark = await sharp({ create: drawn }).png().toBuffer();
  const sent = await client.put("/api/v1/firm/mark").set("content-type", "image/png").send(mark);
  expect(sent.status).toBeLessThan(300);
  for (const name of ["handover-pack", "commissioning-record"]) {
    const path = `/api/v1/jobs/${job.jobId}/${name}.pdf`;
    const read = await readPdf(await fileOf(client.get(path)));
    for (const line of [...branding.address.split("\n"), "01632 960 017", "Reg. 0042"]) {
      expect(read.text).toContain(squeezed(line));
    }
    expect(read.nodes.filter(({ alt }) => alt === "Mark of alder")).toHaveLength(1);
    expect(read.text).toContain(squeezed("The firm: alder, telephone 01632 960 017."));
  }
});
