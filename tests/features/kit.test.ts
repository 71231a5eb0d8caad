// The pick list of a job, and who ticked what.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { parseSurvey } from "../../src/domain/siting/survey.ts";
import { saveSurvey } from "../../src/features/surveys/save-survey.ts";
import type { TestFirm } from "../support/app.ts";
import { type KitWork, startKitWork } from "../support/kit-work.ts";
import { pointers } from "../support/reading.ts";

let work: KitWork;
let other: TestFirm;
beforeAll(async () => {
  work = await startKitWork();
  other = await work.service.addFirm("birch");
});
afterAll(() => work.service.stop());

const office = () => work.service.as(work.service.firm.people.office);
const installer = () => work.service.as(work.service.firm.people.installer);
const openJob: KitWork["openJob"] = (units, kind) => work.openJob(units, kind);
const newUnit = () => work.rows.unit(work.modelId);
const kitOf = async (jobId: string, client = office()) => client.get(`/api/v1/jobs/${jobId}/kit`);
const line = (reply: { body: { items: { key: string }[] } }, key: string) =>
  reply.body.items.find((one) => one.key === key);

/** One pack on a timber wall, and no equipment. */
const SHED = {
  ...{ schema: "survey/1", title: "Shed", region: "uk" },
  rooms: [{ id: "shed", name: "Shed", kinds: ["detached-building"] }],
  planes: [
    {
      ...{ id: "wall", name: "Wall", roomId: "shed", view: "elevation" },
      ...{ widthMm: 5000, heightMm: 2400 },
      wall: { backsOnto: "outside-wall", combustible: true },
    },
  ],
  units: [
    {
      ...{ id: "pack", name: "Pack", planeId: "wall", role: "battery" },
      ...{ xMm: 100, yMm: 300, widthMm: 500, heightMm: 700 },
    },
  ],
};

describe("the kit of a job", () => {
  test("has the units, what their maker does not supply, and what the plan asks for", async () => {
    const units = [await newUnit(), await newUnit()];
    const reply = await kitOf(await openJob(units), installer());
    expect(reply.status).toBe(200);
    const keys = reply.body.items.map(({ key }: { key: string }) => key);
    expect(keys).toEqual([
      ...units.map((id) => `unit:${id}`),
      ...["model:HERON-W:anchor", "tool:multimeter", "work:hammer-drill", "work:hole-cleaning"],
      ...["work:detector", "plan:mask", "work:eye-protection", "work:dust-mask"],
    ]);
    expect(line(reply, "model:HERON-W:anchor")).toMatchObject({ amount: 8, sources: ["Sheet 3"] });
    expect(reply.body.inTheBox).toMatchObject([{ key: "model:HERON-W:bracket", amount: 2 }]);
    expect(reply.body.gaps).toEqual([{ code: "no-survey" }]);
  });

  test("follows the survey of the site", async () => {
    const parsed = parseSurvey(SHED);
    if (!parsed.ok) throw new Error(parsed.problem);
    const site = await work.rows.site();
    const wish = { siteId: site.id, survey: parsed.survey, version: undefined };
    await inFirm(work.service.db, work.service.firm.firmId, (tx) =>
      saveSurvey(tx, { ...wish, personId: work.service.firm.people.office.id }, new Date()),
    );
    const body = {
      siteId: site.id,
      planVersionId: work.planVersionId,
      kind: "install",
      title: "Pack",
    };
    const units = [{ unitId: await newUnit() }];
    const job = await office()
      .post("/api/v1/jobs")
      .send({ ...body, units });
    const reply = await kitOf(job.body.id);
    expect(line(reply, "survey:board")).toMatchObject({
      amount: 1,
      notes: [{ code: "combustible-wall", place: "Wall" }],
    });
    expect(reply.body.gaps).toEqual([{ code: "not-on-one-wall", unit: "Pack" }]);
  });

  test("is another firm's business never: 404", async () => {
    const jobId = await openJob([]);
    const theirs = work.service.as(other.people.office);
    expect((await kitOf(jobId, theirs)).status).toBe(404);
    const tick = theirs
      .post(`/api/v1/jobs/${jobId}/kit/ticks`)
      .send({ lineKey: "tool:multimeter" });
    expect((await tick).status).toBe(404);
  });
});

describe("ticks", () => {
  const tick = async (jobId: string, lineKey: string, client = office()) =>
    client.post(`/api/v1/jobs/${jobId}/kit/ticks`).send({ lineKey });
  const undo = async (jobId: string, id: string, client = office()) =>
    client.post(`/api/v1/jobs/${jobId}/kit/ticks/${id}/undo`);

  test("are made by several people, each their own, once", async () => {
    const jobId = await openJob([]);
    const one = await tick(jobId, "tool:multimeter");
    const two = await tick(jobId, "tool:multimeter", installer());
    const again = await tick(jobId, "tool:multimeter");
    expect([one.status, two.status, again.status]).toEqual([201, 201, 200]);
    expect(again.body.id).toBe(one.body.id);
    const reply = await kitOf(jobId);
    expect(line(reply, "tool:multimeter")).toMatchObject({
      ticks: [{ personName: "office person" }, { personName: "installer person" }],
    });
    expect(reply.body.packed).toBe(1);
  });

  test("are taken back by anybody who packs, and can be made again", async () => {
    const jobId = await openJob([]);
    const { body } = await tick(jobId, "plan:mask");
    expect((await undo(jobId, body.id, installer())).status).toBe(201);
    expect((await undo(jobId, body.id)).status).toBe(409);
    expect((await kitOf(jobId)).body.packed).toBe(0);
    expect((await tick(jobId, "plan:mask")).status).toBe(201);
    const elsewhere = await openJob([]);
    expect((await undo(elsewhere, body.id)).status).toBe(404);
  });

  test("made at the same moment by one person are one", async () => {
    const jobId = await openJob([]);
    const replies = await Promise.all(Array.from({ length: 6 }, () => tick(jobId, "plan:mask")));
    expect(new Set(replies.map(({ body }) => body.id)).size).toBe(1);
    expect(replies.filter(({ status }) => status === 201)).toHaveLength(1);
  });

  test("of a line that the kit has not are refused, and of a job that is not open", async () => {
    const jobId = await openJob([]);
    expect(pointers(await tick(jobId, "tool:spade"))).toEqual(["/body/lineKey"]);
    const auditor = work.service.as(work.service.firm.people.auditor);
    expect((await tick(jobId, "plan:mask", auditor)).status).toBe(403);
    await office().post(`/api/v1/jobs/${jobId}/cancellation`).send({ reason: "Sold" });
    expect((await tick(jobId, "plan:mask")).status).toBe(409);
  });
});
