// The list of jobs, and a job opened by form with its first visit.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "../support/app.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planId: string;
let planVersionId: string;
let modelId: string;
let crewId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planId, planVersionId, modelId } = await startWork());
  crewId = await rows.crew("Fell crew", [await rows.person("Ada Finch")]);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);
const list = async (query = "") => (await office().get(`/jobs${query}`)).text;
/** Ids of the jobs shown, in their order. */
const shown = (html: string): string[] =>
  [...html.matchAll(/<td><a href="\/jobs\/([0-9a-f-]{36})">/g)].map(([, id]) => id ?? "");
const nextOf = (html: string): string =>
  (/href="\/jobs([^"]+)" rel="next"/.exec(html)?.[1] ?? "")
    .replaceAll("&amp;", "&")
    .replaceAll("&#x3D;", "=");
const rename = (id: string, data: { title?: string; reference?: string }) =>
  inFirm(service.db, service.firm.firmId, (tx) =>
    tx.job.update({ where: { firmId_id: { firmId: service.firm.firmId, id } }, data }),
  );

describe("the list", () => {
  test("is told to be empty, with the way on", async () => {
    expect(await list()).toContain("There is no such job.");
    expect(await list()).toContain('href="/jobs/new"');
    expect((await installer().get("/jobs")).text).not.toContain('href="/jobs/new"');
  });

  test("is sorted either way and paged without a gap or a repeat", async () => {
    const ids: string[] = [];
    for (let index = 0; index < 45; index += 1) {
      const id = await rows.job(siteId, planVersionId);
      await rename(id, { reference: `J-2025-${String((index * 7) % 45).padStart(4, "0")}` });
      ids.push(id);
    }
    const first = await list("?sort=reference");
    const second = await list(nextOf(first));
    const all = [...shown(first), ...shown(second)];
    expect([shown(first).length, shown(second).length]).toEqual([40, 5]);
    const inOrder = Array.from({ length: 45 }, (_, rank) => ids[(rank * 13) % 45]);
    // 7 · 13 = 91 = 2 · 45 + 1, so the job of rank r is the (13 r)th.
    expect(all).toEqual(inOrder);
    const back = await list("?sort=-reference");
    expect([...shown(back), ...shown(await list(nextOf(back)))]).toEqual(all.toReversed());
    expect(shown(await list())).toEqual(ids.toReversed().slice(0, 40));
    for (const id of ids.slice(3)) await cancel(id);
  });

  const cancel = (id: string) =>
    inFirm(service.db, service.firm.firmId, (tx) =>
      tx.job.update({
        where: { firmId_id: { firmId: service.firm.firmId, id } },
        data: { state: "cancelled" },
      }),
    );

  test("is filtered by state, kind, crew and text, also all at once", async () => {
    const id = await rows.job(siteId, planVersionId);
    await rename(id, { title: "Wash house, north wall" });
    const book = { crewId, local: { day: "2026-12-01", from: "09:00", to: "11:00" } };
    expect((await office().post(`/api/v1/jobs/${id}/visits`).send(book)).status).toBe(201);
    expect(shown(await list("?q=WASH+house"))).toEqual([id]);
    expect(shown(await list(`?crewId=${crewId}&kind=install&q=kiln`))).toEqual([id]);
    expect(shown(await list("?q=wash&kind=survey"))).toEqual([]);
    expect(shown(await list("?q=wash&state=closed"))).toEqual([]);
    expect(shown(await list("?state=cancelled"))).toHaveLength(40);
    expect(await list("?q=wash")).toContain("1 Dec 2026, 09:00");
    expect((await office().get("/jobs?sort=nothing")).status).toBe(422);
    expect((await office().get("/jobs?cursor=%00")).status).toBe(422);
  });

  test("is filtered by what blocks a job: missing until answered, then by nothing", async () => {
    const id = await rows.job(siteId, planVersionId);
    await rename(id, { title: "Only this one" });
    const only = (blockedBy: string) => list(`?q=only+this&blockedBy=${blockedBy}`);
    const found = async () =>
      Promise.all(
        ["anything", "missing", "nothing", "not-met"].map(
          async (by) => shown(await only(by)).length,
        ),
      );
    expect(await found()).toEqual([1, 1, 0, 0]);
    const answer = (done: boolean) => ({
      ...{ id: crypto.randomUUID(), itemId: "proved_dead", subject: "" },
      ...{ takenAt: "2026-11-20T08:00:00+00:00", value: { done } },
    });
    const send = (done: boolean) =>
      installer()
        .post(`/api/v1/jobs/${id}/answers`)
        .send({ answers: [answer(done)] });
    expect((await send(false)).status).toBe(201);
    expect(await found()).toEqual([1, 0, 0, 1]);
    expect((await send(true)).status).toBe(201);
    expect(await found()).toEqual([0, 0, 1, 0]);
  });
});

describe("a new job by form", () => {
  const open = async (fields: object, client = office()) =>
    client
      .post("/jobs/new")
      .type("form")
      .send({ siteId, ...fields });

  test("begins with the site, found by customer, street, postcode or reference", async () => {
    expect((await office().get("/jobs/new?q=kiln+lane")).text).toContain(
      `href="/jobs/new?siteId=${siteId}"`,
    );
    const nothing = await office().get("/jobs/new?q=nowhere");
    expect(nothing.text).toContain("No site is found.");
    expect((await installer().get("/jobs/new")).status).toBe(403);
    const birch = await service.addFirm("birch");
    const theirs = service.as(birch.people.office);
    expect((await theirs.get(`/jobs/new?siteId=${siteId}`)).status).toBe(404);
  });

  test("is opened with its units and its first visit in one step", async () => {
    const unitId = await rows.unit(modelId);
    const form = await office().get(`/jobs/new?siteId=${siteId}`);
    expect(form.text).toContain(`value="${unitId}"`);
    const reply = await open({
      ...{ kind: "install", title: "One pack", planId, units: unitId },
      ...{ crewId, day: "2026-12-03", from: "08:30", to: "16:00", note: "Ring first" },
    });
    expect(reply.status).toBe(303);
    const id = (reply.headers.location as string).split("/").at(-1);
    const job = await office().get(`/api/v1/jobs/${id}`);
    expect(job.body).toMatchObject({
      title: "One pack",
      units: [{ unitId }],
      visits: [{ startsAt: "2026-12-03T08:30:00.000Z", crew: { id: crewId } }],
    });
    const again = await office().get(`/jobs/new?siteId=${siteId}`);
    expect(again.text).not.toContain(`value="${unitId}"`);
  });

  test("is opened without a visit where neither crew nor day is said", async () => {
    const reply = await open({ kind: "survey", title: "Look at the wall", planId });
    const job = await office().get(`/api/v1${reply.headers.location}`);
    expect(job.body.visits).toEqual([]);
  });

  test.each([
    ["without a title", { title: "" }, "title"],
    ["without a plan", { planId: "" }, "planId"],
    ["with a visit that has no crew", { day: "2026-12-04", from: "09:00", to: "10:00" }, "crewId"],
    [
      "with hours turned round",
      { day: "2026-12-04", from: "10:00", to: "09:00", crew: true },
      "to",
    ],
  ])("%s comes back with what was typed and the field marked", async (_what, more, field) => {
    const fields = {
      ...{ kind: "install", title: "Typed title", planId },
      ...more,
      ...("crew" in more ? { crewId } : {}),
    };
    const reply = await open(fields);
    expect(reply.status).toBe(422);
    expect(reply.text).toContain(`id="${field}-problem"`);
    if (fields.title) expect(reply.text).toContain('value="Typed title"');
  });

  test("opens nothing when its visit is double-booked, and says who is where", async () => {
    const fields = {
      ...{ kind: "install", title: "Clash", planId, crewId },
      ...{ day: "2026-12-03", from: "09:00", to: "10:00" },
    };
    const reply = await open(fields);
    expect([reply.status, reply.text]).toMatchObject([422, /Fell crew is on J-2026-/]);
    expect(shown(await list("?q=clash"))).toEqual([]);
  });
});
