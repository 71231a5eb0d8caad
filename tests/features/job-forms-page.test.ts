// Visits and snags by form.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { type Rows, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planId: string;
let planVersionId: string;
let crewId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planId, planVersionId } = await startWork());
  crewId = await rows.crew("Fell crew", [await rows.person("Ada Finch")]);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);

describe("a visit by form", () => {
  test("is booked on its own page and called off on the job's", async () => {
    const id = await rows.job(siteId, planVersionId);
    const fields = { crewId, day: "2026-12-07", from: "09:00", to: "10:00" };
    const book = () => office().post(`/jobs/${id}/visits`).type("form").send(fields);
    expect((await book()).headers.location).toBe(`/jobs/${id}#visits`);
    expect((await book()).status).toBe(422);
    const page = await office().get(`/jobs/${id}`);
    const action = /action="(\/jobs\/[^"]+\/visits\/[^"]+\/cancellation)"/;
    const [, path = ""] = action.exec(page.text) ?? [];
    expect((await installer().post(path)).status).toBe(403);
    expect((await office().post(path)).status).toBe(303);
    expect((await office().get(`/jobs/${id}`)).text).toContain("called off");
    expect((await book()).status).toBe(303);
  });
});

describe("a snag by form", () => {
  test("is raised, followed up and mended, and each refusal says what is missing", async () => {
    const id = await rows.job(siteId, planVersionId);
    const raise = (title: string) =>
      installer().post(`/jobs/${id}/snags`).type("form").send({ title, detail: "" });
    expect((await raise("")).status).toBe(422);
    expect((await raise("Lid missing")).status).toBe(303);
    const [, snag = ""] =
      /href="(\/snags\/[0-9a-f-]{36})"/.exec((await office().get(`/jobs/${id}`)).text) ?? [];
    const send = (path: string, fields: object, client = office()) =>
      client.post(`${snag}${path}`).type("form").send(fields);
    const nothing = await send("/follow-up", { kind: "inspection" });
    expect([nothing.status, nothing.text]).toMatchObject([422, /Say when somebody goes/]);
    const visit = { crewId, day: "2026-12-09", from: "09:00", to: "10:00" };
    expect((await send("/follow-up", visit, installer())).status).toBe(403);
    expect((await send("/follow-up", { ...visit, planId, kind: "inspection" })).status).toBe(303);
    const followed = await office().get(snag);
    expect(followed.text).toMatch(/9 Dec 2026, 09:00/);
    const bare = await send("/mending", { note: "" }, installer());
    expect([bare.status, bare.text]).toMatchObject([422, /closed by evidence/]);
    expect((await send("/mending", { note: "Fitted." }, installer())).status).toBe(303);
    expect((await office().get(snag)).text).toContain("Fitted.");
    const [, job = ""] =
      /href="(\/jobs\/[0-9a-f-]{36})"/.exec(followed.text.split("Job that mends it")[1] ?? "") ??
      [];
    expect((await office().get(job)).text).toContain(`href="${snag}"`);
  });
});
