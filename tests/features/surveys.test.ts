import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { addSite } from "../support/stock.ts";
import { putSurvey, savedSurvey, surveyBody } from "../support/survey-rows.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const pathOf = (site: { id: string }) => `/api/v1/sites/${site.id}/survey`;

describe("a site's survey", () => {
  test("is not there until it is saved; the refusal says how", async () => {
    const site = await addSite(service);
    const reply = await office().get(pathOf(site));
    expect(reply.status).toBe(404);
    expect(reply.body.detail).toContain(`PUT ${pathOf(site)}`);
    expect((await office().get(`/api/v1/sites/${site.id}/siting`)).status).toBe(404);
  });

  test("is saved, read back with its defaults filled in, and names who saved it", async () => {
    const site = await addSite(service);
    const saved = await putSurvey(service, site.id, surveyBody());
    expect([saved.status, saved.headers.etag]).toEqual([201, '"1"']);
    expect(saved.body).toMatchObject({ siteId: site.id, number: 1, savedBy: "office person" });
    expect(saved.body.document).toMatchObject({ ...surveyBody(), displayLength: "mm", tape: [] });
    const read = await office().get(pathOf(site));
    expect([read.headers.etag, read.body]).toEqual(['"1"', saved.body]);
  });

  test("becomes another version with each save, and the earlier ones stay", async () => {
    const site = await addSite(service);
    const first = await savedSurvey(service, site.id, surveyBody(1000));
    const second = await putSurvey(service, site.id, surveyBody(900), 1);
    expect([second.status, second.headers.etag, second.body.number]).toEqual([200, '"2"', 2]);
    const versions = await office().get(`${pathOf(site)}/versions?limit=1`);
    expect(versions.body.items).toMatchObject([{ number: 1, sha256: first.sha256 }]);
    const link = /<([^>]+)>; rel="next"/.exec(versions.headers.link as string)?.[1] as string;
    const rest = await office().get(link);
    expect(rest.body).toMatchObject({ items: [{ number: 2 }], next: null });
    const old = await office().get(`${pathOf(site)}/versions/1`);
    expect(old.body).toEqual(first);
    expect((await office().get(`${pathOf(site)}/versions/3`)).status).toBe(404);
  });

  test("needs If-Match once there is one, and the right one", async () => {
    const site = await addSite(service);
    expect((await putSurvey(service, site.id, surveyBody(), 1)).status).toBe(412);
    await savedSurvey(service, site.id, surveyBody());
    expect((await putSurvey(service, site.id, surveyBody(5))).status).toBe(428);
    expect((await putSurvey(service, site.id, surveyBody(5), 2)).status).toBe(412);
    expect((await putSurvey(service, site.id, surveyBody(5), 1)).status).toBe(200);
  });

  test("is not kept twice when the same document comes again (RFC 9110 13.1.1)", async () => {
    const site = await addSite(service);
    await savedSurvey(service, site.id, surveyBody(1000));
    await putSurvey(service, site.id, surveyBody(900), 1);
    const again = await putSurvey(service, site.id, surveyBody(900), 1);
    expect([again.status, again.body.number]).toEqual([200, 2]);
    const back = await putSurvey(service, site.id, surveyBody(1000), 2);
    expect([back.status, back.body.number]).toEqual([200, 3]);
  });

  test("is one version more, however many save at once", async () => {
    const site = await addSite(service);
    await savedSurvey(service, site.id, surveyBody());
    const gaps = [10, 20, 30, 40, 50];
    const replies = await Promise.all(
      gaps.map((gap) => putSurvey(service, site.id, surveyBody(gap), 1)),
    );
    const statuses = replies.map(({ status }) => status).sort();
    expect(statuses).toEqual([200, 412, 412, 412, 412]);
    const { items } = (await office().get(`${pathOf(site)}/versions`)).body;
    expect(items.map(({ number }: { number: number }) => number)).toEqual([1, 2]);
  });

  test("cannot be changed or taken away in the database either", async () => {
    const site = await addSite(service);
    await savedSurvey(service, site.id, surveyBody());
    const { rows } = await service.db.pool.query("SELECT current_user AS role");
    expect(rows).toEqual([{ role: "holdpoint_app" }]);
    for (const statement of ["UPDATE survey SET number = 9", "DELETE FROM survey"]) {
      await expect(service.db.pool.query(statement)).rejects.toThrow("permission denied");
    }
  });
});

describe("a survey that cannot be used", () => {
  const bent = (change: (body: ReturnType<typeof surveyBody>) => object) => change(surveyBody());
  test.each([
    ["a member that the schema lacks", { ...surveyBody(), colour: "red" }, "/body"],
    ["another schema", { ...surveyBody(), schema: "survey/2" }, "/body/schema"],
    ["no units", { ...surveyBody(), units: [] }, "/body/units"],
    [
      "a plane in a room that is not there",
      bent((body) => ({ ...body, rooms: [{ ...body.rooms[0], id: "elsewhere" }] })),
      "/body/planes/0/roomId",
    ],
    [
      "a unit that sticks out of its plane",
      bent((body) => ({ ...body, units: [{ ...body.units[0], xMm: 5401 }] })),
      "/body/units/0",
    ],
    ["a name of two lines", { ...surveyBody(), title: "South\nwall" }, "/body/title"],
    ["a name with half a character", { ...surveyBody(), title: "wall \ud800" }, "/body/title"],
    ["a title too long", { ...surveyBody(), title: "w".repeat(81) }, "/body/title"],
  ])("is refused at the place of the fault: %s", async (_name, body, pointer) => {
    const site = await addSite(service);
    const reply = await putSurvey(service, site.id, body);
    expect(reply.status, JSON.stringify(reply.body)).toBe(422);
    expect(pointersOf(reply)).toContain(pointer);
    expect((await office().get(pathOf(site))).status).toBe(404);
  });

  test("touching the plane's edge is no sticking out", async () => {
    const site = await addSite(service);
    const body = bent((before) => ({ ...before, units: [{ ...before.units[0], xMm: 5400 }] }));
    expect((await putSurvey(service, site.id, body)).status).toBe(201);
  });
});

describe("who may", () => {
  test("everyone reads; the auditor does not save", async () => {
    const site = await addSite(service);
    await savedSurvey(service, site.id, surveyBody());
    for (const role of ["installer", "manager", "auditor", "owner"] as const) {
      const client = service.as(service.firm.people[role]);
      expect((await client.get(pathOf(site))).status, role).toBe(200);
      const put = client.put(pathOf(site)).set("if-match", '"1"');
      expect((await put.send(surveyBody())).status, role).toBe(role === "auditor" ? 403 : 200);
    }
    expect((await service.anonymous.get(pathOf(site))).status).toBe(401);
  });

  test("a site of another firm is not there, to read or to save", async () => {
    const other = await service.addFirm("birch");
    const site = await addSite(service);
    await savedSurvey(service, site.id, surveyBody());
    const client = service.as(other.people.office);
    for (const path of ["", "/versions", "/versions/1"]) {
      expect((await client.get(`${pathOf(site)}${path}`)).status, path).toBe(404);
    }
    for (const path of ["siting", "siting.svg"]) {
      expect((await client.get(`/api/v1/sites/${site.id}/${path}`)).status, path).toBe(404);
    }
    expect((await client.put(pathOf(site)).send(surveyBody())).status).toBe(404);
  });
});
