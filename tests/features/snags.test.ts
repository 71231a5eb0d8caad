import { createHash } from "node:crypto";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { idsOf, ledgerOf, nextOf, pointers } from "../support/reading.ts";
import { NOW, type Rows, startWork } from "../support/work-rows.ts";

interface LedgerItem {
  text: string;
  texts: { path: string; salt: string; text: string }[];
}

let service: TestService;
let rows: Rows;
let siteId: string;
let planVersionId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planVersionId } = await startWork());
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);
const newJob = () => rows.job(siteId, planVersionId);
const raise = async (body: object, jobId?: string) =>
  installer()
    .post(`/api/v1/jobs/${jobId ?? (await newJob())}/snags`)
    .send(body);
async function expectTextsBeside(jobId: string) {
  const { items } = (await office().get(`/api/v1/jobs/${jobId}/ledger`)).body;
  const own = items.slice(-3) as LedgerItem[];
  for (const { text, texts } of own) {
    const [{ path, salt, text: written }] = texts as [LedgerItem["texts"][0]];
    const sum = createHash("sha256").update(`${salt}${written}`).digest("hex");
    expect(JSON.parse(text).body[path.slice(1)]).toEqual({ salted: sum });
  }
}

describe("a snag", () => {
  test("is raised by an installer, changed, mended, and each is in the job's ledger", async () => {
    const jobId = await newJob();
    const raised = await raise(
      { title: "Trunking lid missing", detail: "Left of Ida's meter" },
      jobId,
    );
    expect(raised.status).toBe(201);
    expect(raised.body).toMatchObject({
      jobId,
      state: "open",
      raisedByName: "installer person",
      raisedAt: NOW.toISOString(),
      mendedAt: null,
    });
    const path = raised.headers.location as string;
    expect((await office().get(path)).body).toEqual(raised.body);

    const edited = await office().patch(path).set("if-match", '"1"').send({ detail: null });
    expect([edited.status, edited.body.detail, edited.headers.etag]).toEqual([200, null, '"2"']);
    const mended = await installer().post(`${path}/mending`).send({ note: "New lid fitted." });
    expect(mended.status).toBe(201);
    expect(mended.body).toMatchObject({
      state: "mended",
      mendedByName: "installer person",
      mendedAt: NOW.toISOString(),
    });

    const { installer: one, office: other } = service.firm.people;
    const snagId = raised.body.id;
    // RFC 8785 form written out by hand: members in order, no spaces.
    const first = '{"detail":"Left of Ida\'s meter","title":"Trunking lid missing"}';
    const second = '{"detail":null,"title":"Trunking lid missing"}';
    expect(await ledgerOf(service, jobId)).toMatchObject([
      { kind: "snag.raised", body: { personId: one.id, snagId, text: first } },
      { kind: "snag.edited", body: { personId: other.id, snagId, text: second } },
      { kind: "snag.mended", body: { personId: one.id, snagId, note: "New lid fitted." } },
    ]);
    await expectTextsBeside(jobId);
  });

  test("is mended once, and does not change afterwards", async () => {
    const { body: snag } = await raise({ title: "Label upside down" });
    const path = `/api/v1/snags/${snag.id}`;
    const replies = await Promise.all([
      installer().post(`${path}/mending`).send({ note: "Done." }),
      office().post(`${path}/mending`).send({ note: "Done." }),
    ]);
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    expect((await ledgerOf(service, snag.jobId)).map(({ kind }) => kind)).toEqual([
      "snag.raised",
      "snag.mended",
    ]);
    const edit = await office().patch(path).set("if-match", '"2"').send({ title: "Other" });
    expect([edit.status, edit.body.type]).toEqual([409, "/problems/conflict"]);
  });

  test("is changed only against the version that was read", async () => {
    const { body: snag } = await raise({ title: "Cable clip loose" });
    const path = `/api/v1/snags/${snag.id}`;
    expect((await office().patch(path).send({ title: "A" })).status).toBe(428);
    expect((await office().patch(path).set("if-match", '"2"').send({ title: "A" })).status).toBe(
      412,
    );
    expect((await ledgerOf(service, snag.jobId)).map(({ kind }) => kind)).toEqual(["snag.raised"]);
  });

  test("is not raised on a cancelled job", async () => {
    const jobId = await newJob();
    await office().post(`/api/v1/jobs/${jobId}/cancellation`).send({ reason: "Moved away" });
    const reply = await raise({ title: "Too late" }, jobId);
    expect([reply.status, reply.body.type]).toEqual([409, "/problems/conflict"]);
  });

  test.each([
    [{}, "/body/title"],
    [{ title: " " }, "/body/title"],
    [{ title: "x".repeat(161) }, "/body/title"],
    [{ title: "two\nlines" }, "/body/title"],
    [{ title: "ok", detail: "x".repeat(4001) }, "/body/detail"],
    [{ title: "ok", detail: "nul\u0000" }, "/body/detail"],
  ])("with a bad field is refused with its pointer: %j", async (body, pointer) => {
    const reply = await raise(body);
    expect(reply.status).toBe(422);
    expect(pointers(reply)).toContain(pointer);
  });
});

describe("lists of snags", () => {
  test("are by job, by state, by site and by part of the title", async () => {
    const otherSite = await rows.site();
    const [one, two] = [await newJob(), await rows.job(otherSite.id, planVersionId)];
    const { body: lid } = await raise({ title: "Lid missing (list)" }, one);
    const { body: clip } = await raise({ title: "Clip loose (list)" }, one);
    const { body: far } = await raise({ title: "Lid cracked (list)" }, two);
    await installer().post(`/api/v1/snags/${clip.id}/mending`).send({ note: "Clipped." });
    const ids = async (path: string) => idsOf(await office().get(path));
    expect(await ids(`/api/v1/jobs/${one}/snags`)).toEqual([lid.id, clip.id]);
    expect(await ids(`/api/v1/jobs/${one}/snags?state=open`)).toEqual([lid.id]);
    expect(await ids(`/api/v1/snags?jobId=${one}&state=mended`)).toEqual([clip.id]);
    expect(await ids(`/api/v1/snags?siteId=${otherSite.id}`)).toEqual([far.id]);
    expect(await ids("/api/v1/snags?title=lid&state=open&limit=100")).toEqual(
      expect.arrayContaining([lid.id, far.id]),
    );
    const page = await office().get("/api/v1/snags?title=(list)&limit=2");
    expect(await ids(nextOf(page))).toEqual([far.id]);
  });
});

describe("snags and who may", () => {
  test("are raised by those who work, and read by everyone", async () => {
    const { people } = service.firm;
    const jobId = await newJob();
    for (const role of ["owner", "office", "installer", "manager"] as const) {
      const reply = await service
        .as(people[role])
        .post(`/api/v1/jobs/${jobId}/snags`)
        .send({ title: `By ${role}` });
      expect(reply.status).toBe(201);
    }
    const auditor = service.as(people.auditor);
    expect((await auditor.post(`/api/v1/jobs/${jobId}/snags`).send({ title: "x" })).status).toBe(
      403,
    );
    expect((await auditor.get(`/api/v1/jobs/${jobId}/snags`)).body.items).toHaveLength(4);
  });

  test("of another firm are not there", async () => {
    const other = await service.addFirm("birch");
    const theirs = service.as(other.people.office);
    const { body: snag } = await raise({ title: "Ours alone" });
    expect((await theirs.get(`/api/v1/snags/${snag.id}`)).status).toBe(404);
    expect((await theirs.post(`/api/v1/snags/${snag.id}/mending`).send({ note: "x" })).status).toBe(
      404,
    );
    expect((await theirs.get(`/api/v1/jobs/${snag.jobId}/snags`)).status).toBe(404);
    expect((await theirs.get("/api/v1/snags")).body.items).toEqual([]);
    const onOurs = await theirs.post(`/api/v1/jobs/${snag.jobId}/snags`).send({ title: "x" });
    expect(onOurs.status).toBe(404);
    expect((await raise({ title: "Nowhere" }, uuidv7())).status).toBe(404);
  });
});
