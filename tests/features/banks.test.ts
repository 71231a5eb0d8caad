import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addSite, type Made } from "../support/stock.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);

async function addBank(site: Made, name = "Bank A"): Promise<Made> {
  const reply = await office().post("/api/v1/banks").send({ siteId: site.id, name });
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body;
}

describe("banks", () => {
  test("are added to a site, read, and listed by site", async () => {
    const site = await addSite(service);
    const body = { siteId: site.id, name: "Bank A", protocol: "can-b" };
    const reply = await installer().post("/api/v1/banks").send(body);
    expect([reply.status, reply.headers.etag]).toEqual([201, '"1"']);
    expect(reply.body).toMatchObject({ ...body, packs: [] });
    const read = await office().get(reply.headers.location as string);
    expect(read.body).toEqual(reply.body);
    await addBank(await addSite(service));
    const list = await office().get(`/api/v1/banks?siteId=${site.id}`);
    expect(list.body.items).toEqual([reply.body]);
  });

  test("have a name of their own at their site, when added and when renamed", async () => {
    const [site, elsewhere] = [await addSite(service), await addSite(service)];
    await addBank(site, "Taken");
    const again = await office().post("/api/v1/banks").send({ siteId: site.id, name: "Taken" });
    expect(again.status).toBe(409);
    await addBank(elsewhere, "Taken");
    const bank = await addBank(site, "Free");
    const edit = (version: number, change: object) =>
      office().patch(`/api/v1/banks/${bank.id}`).set("if-match", `"${version}"`).send(change);
    expect((await edit(1, { name: "Taken" })).status).toBe(409);
    const done = await edit(1, { name: "Other", protocol: "can-c" });
    expect([done.status, done.body.name, done.body.protocol]).toEqual([200, "Other", "can-c"]);
    expect((await edit(1, { name: "Late" })).status).toBe(412);
    const byForm = (name: string) =>
      office()
        .post(`/banks/${bank.id}`)
        .set("accept", "text/html")
        .send({ name, version: done.body.version });
    expect((await byForm("Taken")).text).toContain("has a bank named Taken already");
    expect((await byForm("Garage wall")).status).toBe(303);
    const page = await office().get(`/banks/${bank.id}`).set("accept", "text/html");
    expect(page.text).toContain("Garage wall");
  });

  test("at a site of another firm are refused by its pointer, and not there to read", async () => {
    const other = await service.addFirm("birch");
    const theirs = await addSite(service, {}, other);
    const refused = await office().post("/api/v1/banks").send({ siteId: theirs.id, name: "X" });
    expect([refused.status, refused.body.errors[0].pointer]).toEqual([422, "/body/siteId"]);
    const bank = await addBank(await addSite(service));
    const client = service.as(other.people.office);
    expect((await client.get(`/api/v1/banks/${bank.id}`)).status).toBe(404);
    expect((await client.get("/api/v1/banks")).body.items).toEqual([]);
    const packs = client.put(`/api/v1/banks/${bank.id}/packs`).set("if-match", '"1"');
    expect((await packs.send({ packs: [] })).status).toBe(404);
  });

  test("are read by everyone and not changed by manager or auditor", async () => {
    const site = await addSite(service);
    const bank = await addBank(site);
    for (const role of ["manager", "auditor"] as const) {
      const client = service.as(service.firm.people[role]);
      expect((await client.get(`/api/v1/banks/${bank.id}`)).status).toBe(200);
      expect((await client.post("/api/v1/banks").send({ siteId: site.id })).status).toBe(403);
    }
  });
});
