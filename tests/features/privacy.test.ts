// Erasure (Regulation (EU) 2016/679, Articles 17 and 20): nothing that names the customer is left
// in any table, and the records of the jobs verify as before.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { inFirm } from "../../src/db/scope.ts";
import { overBefore } from "../../src/features/privacy/retention.ts";
import { purge } from "../../src/runs/purge.ts";
import {
  addProvenJob,
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { nameInWork } from "../support/named-work.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { tablesWith } from "../support/tables-with.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const WORDS = ["Ottoline Quill", "o.quill@post.example", "+44 7700 900123", "9 Tern Wharf"];
let stage: EvidenceStage;
let job: PracticeJob;
let customerId: string;

beforeAll(async () => {
  stage = await startEvidence(() => NOW);
  job = await addProvenJob(stage.service);
  const site = (await as("office").get(`/api/v1/sites/${job.siteId}`)).body;
  customerId = site.customerId;
  const [name, email, phone, street] = WORDS;
  await edit(`/api/v1/customers/${customerId}`, { name: "O. Quill before", email, phone });
  await edit(`/api/v1/customers/${customerId}`, {
    name,
    address: `${street}, NW0 4ZZ`,
    note: name,
  });
  await edit(`/api/v1/sites/${job.siteId}`, { addressLine: street, name: `Quill, ${street}` });
  await as("office")
    .post(`/api/v1/jobs/${job.jobId}/messages`)
    .send({ text: `Ring ${name}` });
  await nameInWork(stage.service, job, `Install for ${name}`);
  await addMail(`Dear ${name}`, customerId);
  await addMail(`Due: ${street}`, null);
  const record = await as("office").get(`/api/v1/jobs/${job.jobId}/commissioning-record.pdf`);
  expect(record.status).toBe(200);
});
afterAll(() => stage.stop());

const as = (role: "owner" | "office" | "manager" | "installer") =>
  stage.service.as(stage.service.firm.people[role]);

async function edit(path: string, change: object) {
  const before = await as("office").get(path);
  const etag = before.headers.etag as string;
  const reply = await as("office").patch(path).set("if-match", etag).send(change);
  expect(reply.status, reply.text).toBe(200);
}

async function addMail(textBody: string, mailCustomerId: string | null) {
  const { firmId } = stage.service.firm;
  const id = crypto.randomUUID();
  const words = { recipient: WORDS[1]!, subject: textBody, textBody, messageId: id };
  await inFirm(stage.service.db, firmId, async (tx) => {
    await tx.mail.create({ data: { firmId, id, ...words, customerId: mailCustomerId } });
    const file = { firmId, mailId: id, number: 1, name: "a.ics", contentType: "text/calendar" };
    await tx.mailAttachment.create({ data: { ...file, content: Buffer.from(textBody) } });
  });
  const folder = join(stage.folder, "data", "mail");
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, `${id}.eml`), textBody);
  return id;
}

const data = () => ({ dataFolder: join(stage.folder, "data") });

/** Mails as files that hold one of the words. */
function mailFilesWith(words: readonly string[]): string[] {
  const folder = join(data().dataFolder, "mail");
  return readdirSync(folder).filter((name) => {
    const text = readFileSync(join(folder, name), "utf8");
    return words.some((word) => text.includes(word));
  });
}

describe("a customer", () => {
  test("takes away all that is held about it, as JSON", async () => {
    const reply = await as("manager").get(`/api/v1/customers/${customerId}/personal-data`);
    expect(reply.status).toBe(200);
    expect(reply.headers["content-disposition"]).toMatch(/personal-data-C-.*\.json/);
    for (const word of WORDS) expect(reply.text).toContain(word);
    expect(reply.body.jobs).toHaveLength(1);
    expect(reply.body.changes.length).toBeGreaterThan(1);
    const path = `/api/v1/customers/${customerId}/personal-data`;
    expect((await as("installer").get(path)).status).toBe(403);
  });

  test("is not erased while it stands on the lists, nor by anybody but an owner", async () => {
    const path = `/api/v1/customers/${customerId}/erasure`;
    const ask = { reason: "Asked for by letter" };
    const refused = await as("owner").post(path).send(ask);
    expect([refused.status, refused.body.detail]).toEqual([
      409,
      expect.stringContaining("is not archived"),
    ]);
    expect((await as("office").post(path).send(ask)).status).toBe(403);
  });

  test("once erased, is in no table any more, and the job's evidence verifies", async () => {
    const before = await tablesWith(stage.service.ownerUrl, WORDS);
    expect(mailFilesWith(WORDS)).toHaveLength(2);
    expect(before).toEqual(
      expect.arrayContaining(["change_record", "customer", "mail", "mail_attachment", "site"]),
    );
    await edit(`/api/v1/sites/${job.siteId}`, { archived: true });
    await edit(`/api/v1/customers/${customerId}`, { archived: true });
    const path = `/api/v1/customers/${customerId}/erasure`;
    const key = { "idempotency-key": "erase-once-1" };
    const ask = { reason: "Asked for by letter" };
    const { status, body } = await as("owner").post(path).set(key).send(ask);
    expect([status, body]).toEqual([
      201,
      expect.objectContaining({ customers: 1, sites: 1, jobs: 1, mails: 2 }),
    ]);
    expect(await tablesWith(stage.service.ownerUrl, WORDS)).toEqual([]);
    const { title } = (await as("office").get(`/api/v1/jobs/${job.jobId}`)).body;
    expect(title).toBe("Install for Erased");
    expect(mailFilesWith(WORDS)).toEqual([]);
    const { firmId } = stage.service.firm;
    expect(existsSync(join(stage.folder, "data", "papers", firmId, job.jobId))).toBe(false);
    const again = await as("owner").post(path).send({ reason: "Once more" });
    expect(again.body).toEqual(body);

    const folder = await unpack(await downloadBag(stage.service, job.jobId), stage.folder);
    const report = await verifyBag(folder, await certificatesOf(stage.service));
    expect(report.faults).toEqual([]);
    expect(report.figures.verdicts).toBeGreaterThan(10);
    const ledger = (await as("owner").get(`/api/v1/jobs/${job.jobId}/ledger?limit=200`)).body;
    const kinds = ledger.items.map(({ text }: { text: string }) => JSON.parse(text).kind);
    expect(kinds.filter((kind: string) => kind === "record.erased")).toHaveLength(1);
  });

  test("that was erased is not filled in again", async () => {
    const path = `/api/v1/customers/${customerId}`;
    const { headers } = await as("office").get(path);
    const change = as("office")
      .patch(path)
      .set("if-match", headers.etag as string);
    expect((await change.send({ name: "Back again" })).status).toBe(409);
    const list = (await as("manager").get("/api/v1/erasures")).body;
    expect(list.items).toMatchObject([{ customerId, reason: "Asked for by letter" }]);
  });
});

describe("what is no part of the technical record", () => {
  test("goes when it is older than the firm keeps it, and not before", async () => {
    const id = await addMail("Long ago", null);
    await as("office").post(`/api/v1/jobs/${job.jobId}/messages`).send({ text: "Long ago too" });
    const put = await as("owner")
      .put("/api/v1/retention")
      .send({ mails: 6, messages: 12, changes: null, customers: 24 });
    expect(put.body).toEqual({ mails: 6, messages: 12, changes: null, customers: 24 });
    const { firmId } = stage.service.firm;
    const read = () =>
      inFirm(stage.service.db, firmId, (tx) =>
        tx.mail.update({
          where: { firmId_id: { firmId, id } },
          data: { state: "sent", createdAt: new Date("2026-05-25T12:00:00Z") },
        }),
      );
    await read();
    await purge(stage.service.db, data(), NOW);
    expect((await read()).textBody).toBe("Long ago");
    expect(mailFilesWith(["Long ago"])).toHaveLength(1);
    await purge(stage.service.db, data(), new Date("2026-11-26T17:00:00Z"));
    expect((await read()).textBody).toBe("Erased");
    expect(mailFilesWith(["Long ago"])).toEqual([]);
    const messages = await as("office").get(`/api/v1/jobs/${job.jobId}/messages`);
    expect(messages.text).toContain("Long ago too");
    const zero = { mails: 0, messages: null, changes: null, customers: null };
    expect((await as("owner").put("/api/v1/retention").send(zero)).status).toBe(422);
  });

  test("is over by whole days of the firm's calendar, in short months too", () => {
    expect(overBefore("2026-05-31", 3, "Europe/London")).toEqual(new Date("2026-02-28T00:00:00Z"));
    expect(overBefore("2026-11-25", 6, "Europe/London")).toEqual(new Date("2026-05-24T23:00:00Z"));
  });
});
