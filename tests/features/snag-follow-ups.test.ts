// A snag gets its visit or its job, and is closed by evidence.
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { ledgerOf } from "../support/reading.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planVersionId: string;
let planId: string;
let crewId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planId, planVersionId } = await startWork());
  crewId = await rows.crew("Fell crew", [await rows.person("Ada Finch")]);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);

async function raise(jobId?: string) {
  const at = jobId ?? (await rows.job(siteId, planVersionId));
  const reply = await installer()
    .post(`/api/v1/jobs/${at}/snags`)
    .send({ title: "Trunking lid missing" });
  return reply.body as { id: string; jobId: string };
}

const visit = (day: string) => ({ crewId, local: { day, from: "09:00", to: "10:00" } });

async function sendPhoto(jobId: string): Promise<string> {
  const picture = sharp({
    create: { width: 8, height: 8, channels: 3, background: jobIdColour(jobId) },
  });
  const bytes = await picture.png().toBuffer();
  const sha256 = Buffer.from(await crypto.subtle.digest("SHA-256", bytes)).toString("hex");
  const reply = await installer()
    .put(`/api/v1/jobs/${jobId}/photos/${sha256}`)
    .set("content-type", "image/png")
    .send(bytes);
  expect(reply.status).toBe(201);
  return sha256;
}

const jobIdColour = (jobId: string): string => `#${jobId.slice(-6)}`;

describe("a snag is closed by evidence", () => {
  const mend = async (id: string, body: object) =>
    installer().post(`/api/v1/snags/${id}/mending`).send(body);

  test("without any it stays open, and the reply says what would do", async () => {
    const { id } = await raise();
    const reply = await mend(id, {});
    expect(reply.status).toBe(422);
    expect(reply.body.errors[0].pointer).toBe("/body/photos");
    expect(reply.body.detail).toContain("closed by evidence");
    expect((await office().get(`/api/v1/snags/${id}`)).body.state).toBe("open");
  });

  test("by a photo of its job; not by one of another job", async () => {
    const [snag, other] = [await raise(), await raise()];
    const [own, strange] = [await sendPhoto(snag.jobId), await sendPhoto(other.jobId)];
    const wrong = await mend(snag.id, { photos: [own, strange] });
    expect(wrong.body.errors).toMatchObject([{ pointer: "/body/photos/1" }]);
    const right = await mend(snag.id, { photos: [own] });
    expect(right.body).toMatchObject({ state: "mended", mendedPhotos: [own], mendedNote: null });
    const ledger = await ledgerOf(service, snag.jobId);
    expect(ledger.at(-1)).toMatchObject({ kind: "snag.mended", body: { photos: [own] } });
  });

  test("by the words of who saw it, of which the ledger holds the hash only", async () => {
    const snag = await raise();
    const reply = await mend(snag.id, { note: "Mrs Rook fitted it herself." });
    expect(reply.body.mendedNote).toBe("Mrs Rook fitted it herself.");
    const reader = service.as(service.firm.people.office);
    const { items } = (await reader.get(`/api/v1/jobs/${snag.jobId}/ledger`)).body;
    const { text, texts } = items.at(-1);
    expect(text).toMatch(/"note":\{"salted":"[0-9a-f]{64}"\}/);
    expect([text.includes("Rook"), texts[0].text]).toEqual([false, "Mrs Rook fitted it herself."]);
  });
});

describe("a follow-up", () => {
  const follow = async (id: string, body: object) =>
    office().post(`/api/v1/snags/${id}/follow-up`).send(body);

  test("is a visit on the snag's own job while that is open", async () => {
    const snag = await raise();
    const reply = await follow(snag.id, { visit: visit("2026-12-01") });
    expect(reply.status).toBe(201);
    const booked = await office().get(`/api/v1/visits/${reply.body.followUpVisitId}`);
    expect(booked.body.job.id).toBe(snag.jobId);
    expect(reply.body.followUpJobId).toBeNull();
    expect((await ledgerOf(service, snag.jobId)).at(-1)?.kind).toBe("snag.followed-up");
  });

  test("is a job of its own with its visit, named after the snag", async () => {
    const snag = await raise();
    const job = { kind: "inspection", planId };
    const reply = await follow(snag.id, { job, visit: visit("2026-12-02") });
    expect(reply.status).toBe(201);
    const opened = await office().get(`/api/v1/jobs/${reply.body.followUpJobId}`);
    expect(opened.body).toMatchObject({ title: "Trunking lid missing", kind: "inspection" });
    expect(opened.body.site.id).toBe(siteId);
    expect(opened.body.visits).toMatchObject([{ id: reply.body.followUpVisitId }]);
    const again = await follow(snag.id, { job });
    expect(again.status).toBe(409);
    const later = await follow(snag.id, { visit: visit("2026-12-03") });
    const second = await office().get(`/api/v1/visits/${later.body.followUpVisitId}`);
    expect(second.body.job.id).toBe(reply.body.followUpJobId);
  });

  test("of a job that is not open needs a job", async () => {
    const snag = await raise();
    await office().post(`/api/v1/jobs/${snag.jobId}/cancellation`).send({ reason: "Sold" });
    const reply = await follow(snag.id, { visit: visit("2026-12-04") });
    expect(reply.status).toBe(422);
    expect(reply.body.errors[0].pointer).toBe("/body/job");
    expect((await follow(snag.id, { job: { kind: "inspection", planId } })).status).toBe(201);
  });

  test("points at the field that is wrong, one level deeper", async () => {
    const snag = await raise();
    const strange = "019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11";
    const plan = await follow(snag.id, { job: { kind: "inspection", planId: strange } });
    expect(plan.body.errors[0].pointer).toBe("/body/job/planId");
    const crew = await follow(snag.id, { visit: { ...visit("2026-12-05"), crewId: strange } });
    expect(crew.body.errors[0].pointer).toBe("/body/visit/crewId");
    expect((await follow(snag.id, {})).status).toBe(422);
  });

  test("double-books nobody, and opens no job when its visit is refused", async () => {
    const [one, two] = [await raise(), await raise()];
    expect((await follow(one.id, { visit: visit("2026-12-08") })).status).toBe(201);
    const body = { job: { kind: "inspection", planId }, visit: visit("2026-12-08") };
    const refused = await follow(two.id, body);
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/double-booked"]);
    expect((await office().get(`/api/v1/snags/${two.id}`)).body.followUpJobId).toBeNull();
  });

  test("is for the office: 403 for installers, 404 elsewhere, 409 once it is mended", async () => {
    const snag = await raise();
    const path = `/api/v1/snags/${snag.id}/follow-up`;
    const body = { visit: visit("2026-12-09") };
    expect((await installer().post(path).send(body)).status).toBe(403);
    const birch = await service.addFirm("birch");
    expect((await service.as(birch.people.office).post(path).send(body)).status).toBe(404);
    await installer().post(`/api/v1/snags/${snag.id}/mending`).send({ note: "Done." });
    expect((await follow(snag.id, body)).status).toBe(409);
  });
});
