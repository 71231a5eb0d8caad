// Links by which a customer without an account reads the papers of a closed job.
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import {
  addTriedJob,
  downloadBag,
  type EvidenceStage,
  startEvidence,
} from "../support/evidence-bag.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { fileOf, readPdf } from "../support/read-pdf.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const DAY_MS = 24 * 3_600_000;
let now = NOW;
let stage: EvidenceStage;
let job: PracticeJob;

beforeAll(async () => {
  stage = await startEvidence(() => now);
  ({ job } = await addTriedJob(stage.service, "steady"));
});
afterAll(() => stage.stop());

const office = () => stage.service.as(stage.service.firm.people.office);
const make = (body: object = {}, jobId = job.jobId) =>
  office().post(`/api/v1/jobs/${jobId}/handover-links`).send(body);
const made = async (body: object = {}): Promise<{ id: string; path: string }> => {
  const reply = await make(body);
  if (reply.status !== 201) throw new Error(`refused: ${reply.text}`);
  return { id: reply.body.id, path: new URL(reply.body.url).pathname };
};
const open = (path: string) => stage.service.anonymous.get(path);
const kinds = async (): Promise<string[]> => {
  const reply = await office().get(`/api/v1/jobs/${job.jobId}/ledger?limit=500`);
  return reply.body.items.map(({ text }: { text: string }) => JSON.parse(text).kind);
};
const inDatabase = <T>(work: Parameters<typeof inFirm<T>>[2]): Promise<T> =>
  inFirm(stage.service.db, stage.service.firm.firmId, work);

test("opens both papers without signing in, told to search engines as none of theirs", async () => {
  const { id, path } = await made({ language: "es" });
  const page = await open(path).set("accept-language", "en");
  expect(page.status).toBe(200);
  expect(page.text).toContain("Sus documentos de alder");
  expect(page.headers["x-robots-tag"]).toContain("noindex");
  expect(page.headers["cache-control"]).toContain("no-store");
  const pack = await readPdf(await fileOf(open(`${path}/handover-pack.pdf`)));
  expect(pack).toMatchObject({ language: "es" });
  expect(pack.text).toContain("Enunaemergencia");
  const shown = await fileOf(
    office().get(`/api/v1/jobs/${job.jobId}/commissioning-record.pdf?language=es`),
  );
  expect((await fileOf(open(`${path}/commissioning-record.pdf`))).equals(shown)).toBe(true);
  const list = await office().get(`/api/v1/jobs/${job.jobId}/handover-links`);
  expect(list.body.items).toMatchObject([{ id, opened: 2, openedAt: NOW.toISOString() }]);
  expect(list.text).not.toContain("url");
});

test("is on the ledger when made, when opened (once a day), and when ended", async () => {
  const before = (await kinds()).length;
  const { id, path } = await made();
  for (const day of [0, 0, 1]) {
    now = new Date(NOW.getTime() + day * DAY_MS);
    await fileOf(open(`${path}/handover-pack.pdf`));
  }
  now = NOW;
  for (const _again of [1, 2]) {
    expect((await office().delete(`/api/v1/handover-links/${id}`)).status).toBe(204);
  }
  const looks = ["record.sent", "record.opened", "record.opened", "record.link-ended"];
  expect((await kinds()).slice(before)).toEqual(looks);
});

test("opens nothing once ended, run out, or with another secret", async () => {
  const ended = await made();
  await office().delete(`/api/v1/handover-links/${ended.id}`);
  const short = await made({ days: 2 });
  const wrong = `${short.path.slice(0, -43)}${"A".repeat(43)}`;
  const pages = (path: string) => [
    path,
    `${path}/handover-pack.pdf`,
    `${path}/commissioning-record.pdf`,
  ];
  for (const path of [...pages(ended.path), ...pages(wrong), "/handover/a/b/c"]) {
    expect((await open(path)).status, path).toBe(404);
  }
  now = new Date(NOW.getTime() + 2 * DAY_MS - 1000);
  expect((await open(short.path)).status).toBe(200);
  now = new Date(NOW.getTime() + 2 * DAY_MS);
  for (const path of pages(short.path)) expect((await open(path)).status, path).toBe(404);
  now = NOW;
});

test("keeps no secret, and thirty days unless said otherwise", async () => {
  const reply = await make();
  const secret = new URL(reply.body.url).pathname.split("/").at(-1)!;
  expect(secret).toMatch(/^[A-Za-z0-9_-]{43}$/);
  const { id, expiresAt } = reply.body;
  const row = await inDatabase((tx) => tx.handoverLink.findFirstOrThrow({ where: { id } }));
  expect(JSON.stringify(row)).not.toContain(secret);
  expect(new Date(expiresAt).getTime() - NOW.getTime()).toBe(30 * DAY_MS);
});

test("goes to the customer by mail where the customer has an address", async () => {
  const refused = await make({ mail: true });
  expect([refused.status, refused.body.errors?.[0].pointer]).toEqual([409, "/body/mail"]);
  const { customerId } = await inDatabase(async (tx) => {
    const site = await tx.site.findFirstOrThrow({ where: { id: job.siteId } });
    const change = { email: "ane@alder.example", language: "es" };
    await tx.customer.updateMany({ where: { id: site.customerId }, data: change });
    return site;
  });
  const reply = await make({ mail: true });
  const { mailId, url, language } = reply.body;
  expect(language).toBe("es");
  const mail = await inDatabase((tx) => tx.mail.findFirstOrThrow({ where: { id: mailId } }));
  expect(mail).toMatchObject({
    ...{ recipient: "ane@alder.example", customerId, kind: "document", senderName: "alder" },
    subject: "Sus documentos de alder",
  });
  for (const body of [mail.textBody, mail.htmlBody]) {
    expect(body).toContain(url);
    expect(body).toContain("viernes, 25 de diciembre de 2026");
  }
});

test("a job that is not closed is not handed over; a reopened one shows drafts", async () => {
  const other = await addPracticeJob(stage.service);
  expect((await make({}, other.jobId)).status).toBe(409);
  const { installer, manager } = stage.service.firm.people;
  const path = `/api/v1/jobs/${other.jobId}`;
  const client = stage.service.as(installer);
  await client.post(`${path}/answers`).send({ answers: other.answers() });
  await client.post(`${path}/close-out`);
  const reply = await make({}, other.jobId);
  const link = new URL(reply.body.url).pathname;
  expect((await open(link)).text).not.toContain("reopened");
  const reason = { reason: "The label was misread." };
  await stage.service.as(manager).post(`${path}/reopening`).send(reason);
  expect((await open(link)).text).toContain("reopened");
  expect((await readPdf(await fileOf(open(`${link}/handover-pack.pdf`)))).text).toContain("DRAFT");
});

test("sending and opening leave the record, and so its bag, as it is", async () => {
  const bag = await downloadBag(stage.service, job.jobId);
  const { path } = await made();
  now = new Date(NOW.getTime() + 3_600_000);
  await fileOf(open(`${path}/handover-pack.pdf`));
  expect((await downloadBag(stage.service, job.jobId)).equals(bag)).toBe(true);
  now = NOW;
});

test("who may", async () => {
  const { people } = stage.service.firm;
  const other = await stage.service.addFirm("birch");
  const { id } = await made();
  const path = `/api/v1/jobs/${job.jobId}/handover-links`;
  for (const role of ["installer", "auditor"] as const) {
    expect((await stage.service.as(people[role]).post(path).send({})).status).toBe(403);
  }
  const stranger = stage.service.as(other.people.owner);
  expect((await stranger.post(path).send({})).status).toBe(404);
  expect((await stranger.delete(`/api/v1/handover-links/${id}`)).status).toBe(404);
});

test("a network that asks too often is slowed", async () => {
  now = new Date(NOW.getTime() + 10 * DAY_MS);
  const replies = [];
  for (let count = 0; count < 31; count += 1) replies.push((await open("/handover/a/b/c")).status);
  expect(replies.filter((status) => status === 404)).toHaveLength(30);
  expect(replies.at(-1)).toBe(429);
});
