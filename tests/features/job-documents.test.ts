// Papers filed with a job.
import { createHash } from "node:crypto";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestFirm, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";

let service: TestService;
let job: PracticeJob;
let other: TestFirm;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  other = await service.addFirm("birch");
  job = await addPracticeJob(service);
});
afterAll(() => service.stop());

const people = () => service.firm.people;

const PDF = Buffer.from("%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\n%%EOF\n");
const hashOf = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");
const documents = (jobId: string) => `/api/v1/jobs/${jobId}/documents`;
const put = (
  bytes: Buffer,
  { name = "Diagram.pdf", type = "application/pdf", by = people().office, at = job.jobId } = {},
) =>
  service
    .as(by)
    .put(`${documents(at)}/${hashOf(bytes)}?name=${encodeURIComponent(name)}`)
    .set("content-type", type)
    .send(bytes);

describe("documents", () => {
  test("are kept by their hash, listed, and saved as they were sent", async () => {
    const reply = await put(PDF);
    expect(reply.status).toBe(201);
    expect(reply.body).toMatchObject({
      sha256: hashOf(PDF),
      mediaType: "application/pdf",
      bytes: PDF.length,
      name: "Diagram.pdf",
      personName: "office person",
    });
    expect((await put(PDF)).status).toBe(200);
    const auditor = service.as(people().auditor);
    const list = await auditor.get(documents(job.jobId));
    expect(list.body.items).toHaveLength(1);
    const file = await auditor.get(`${documents(job.jobId)}/${hashOf(PDF)}`).buffer(true);
    expect(file.headers["content-type"]).toBe("application/pdf");
    expect(file.headers["content-disposition"]).toMatch(/^attachment; /);
    expect(hashOf(Buffer.from(file.body))).toBe(hashOf(PDF));
  });

  test("leave under a name that RFC 6266 and RFC 8187 carry, by their type", async () => {
    const jpeg = await sharp({ create: { width: 9, height: 9, channels: 3, background: "#123" } })
      .jpeg()
      .toBuffer();
    await put(jpeg, { name: 'Überprüfung "Mühle".exe', type: "image/jpeg" });
    const file = await service.as(people().office).get(`${documents(job.jobId)}/${hashOf(jpeg)}`);
    expect(file.headers["content-disposition"]).toBe(
      'attachment; filename="U_berpru_fung _Mu_hle_.exe.jpg"; ' +
        "filename*=UTF-8''%C3%9Cberpr%C3%BCfung%20%22M%C3%BChle%22.exe.jpg",
    );
  });

  test.each([
    ["a PDF that is cut off", PDF.subarray(0, 20), "application/pdf"],
    ["a page of HTML sent as PDF", Buffer.from("<script>1</script>"), "application/pdf"],
    ["an SVG sent as PNG", Buffer.from("<svg xmlns='http://www.w3.org/2000/svg'/>"), "image/png"],
    ["a picture cut off", Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16]), "image/jpeg"],
  ])("%s is refused: the bytes say what it is", async (_what, bytes, type) => {
    expect((await put(bytes, { type })).status).toBe(415);
  });

  test("of 20 MB are taken, one byte more is not", async () => {
    const most = 20 * 1024 * 1024;
    const large = Buffer.concat([
      PDF,
      Buffer.alloc(most - PDF.length - 6, 32),
      Buffer.from("%%EOF\n"),
    ]);
    expect(large).toHaveLength(most);
    expect((await put(large, { name: "large" })).status).toBe(201);
    const tooLarge = Buffer.concat([large, Buffer.from(" ")]);
    expect((await put(tooLarge, { name: "large" })).status).toBe(413);
  });

  test("under another hash than their own are refused", async () => {
    const reply = await service
      .as(people().office)
      .put(`${documents(job.jobId)}/${"0".repeat(64)}?name=x`)
      .set("content-type", "application/pdf")
      .send(PDF);
    expect(reply.status).toBe(422);
    expect(reply.body.errors[0].pointer).toBe("/params/sha256");
  });

  test("taken off are gone from the list, can be sent again, both on the ledger", async () => {
    const { jobId } = await addPracticeJob(service);
    const office = service.as(people().office);
    const at = `${documents(jobId)}/${hashOf(PDF)}`;
    await put(PDF, { at: jobId });
    expect((await service.as(people().installer).delete(at)).status).toBe(403);
    expect((await office.delete(at)).status).toBe(204);
    expect((await office.get(documents(jobId))).body.items).toEqual([]);
    expect((await office.get(at)).status).toBe(404);
    expect((await office.delete(at)).status).toBe(404);
    expect((await put(PDF, { at: jobId, name: "Again" })).status).toBe(201);
    const ledger = await office.get(`/api/v1/jobs/${jobId}/ledger`);
    const kinds = ledger.body.items.map(({ text }: { text: string }) => JSON.parse(text).kind);
    expect(kinds.slice(-3)).toEqual(["document.received", "document.removed", "document.received"]);
    expect(JSON.stringify(ledger.body)).not.toContain("Again");
  });

  test("are not another firm's", async () => {
    const by = other.people.office;
    expect((await put(PDF, { by })).status).toBe(404);
    expect((await service.as(by).get(documents(job.jobId))).status).toBe(404);
    expect((await service.as(by).get(`${documents(job.jobId)}/${hashOf(PDF)}`)).status).toBe(404);
  });
});

describe("documents on the page", () => {
  const LETTER = Buffer.from("%PDF-1.4\n%%EOF\n");
  const page = async () => service.as(people().office).get(`/jobs/${job.jobId}`);
  const send = (bytes: Buffer, name: string, file = "scan.pdf") =>
    service
      .as(people().office)
      .post(`/jobs/${job.jobId}/documents`)
      .field("name", name)
      .attach("file", bytes, file);

  test("are sent by form (RFC 7578), listed, and taken off", async () => {
    expect((await send(LETTER, "Letter")).status).toBe(303);
    const shown = await page();
    const href = /href="(\/api\/v1\/jobs\/[^"]+\/documents\/[0-9a-f]{64})" download>Letter/;
    const [, path = ""] = href.exec(shown.text) ?? [];
    const file = await service.as(people().office).get(path).buffer(true);
    expect(Buffer.from(file.body).equals(LETTER)).toBe(true);
    const sha256 = path.split("/").at(-1);
    expect(
      (await service.as(people().office).post(`/jobs/${job.jobId}/documents/${sha256}/removal`))
        .status,
    ).toBe(303);
    expect((await page()).text).not.toContain(path);
  });

  test("take the file's own name where none is given, without its folders", async () => {
    const other = Buffer.from("%PDF-1.4\nother\n%%EOF\n");
    await send(other, "", "C:\\papers\\plan.pdf");
    expect((await page()).text).toContain(">plan.pdf<");
  });

  test.each([
    ["a page of HTML", Buffer.from("<p>hello</p>"), 415],
    ["nothing", Buffer.alloc(0), 422],
  ])("%s is refused", async (_what, bytes, status) => {
    expect((await send(bytes, "x")).status).toBe(status);
  });
});
