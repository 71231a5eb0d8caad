import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { COUNTRY_CODES } from "../../src/features/sites/countries.ts";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { addJobRows } from "../support/rows.ts";
import { addModel, addSite, install, receive, SITE } from "../support/stock.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);

async function addCustomer(): Promise<string> {
  const reply = await office().post("/api/v1/customers").send({ name: "Site Customer" });
  return reply.body.id;
}

const edit = (id: string, version: number, change: object) =>
  office().patch(`/api/v1/sites/${id}`).set("if-match", `"${version}"`).send(change);

const idsOf = async (query: string): Promise<string[]> =>
  (await office().get(`/api/v1/sites?limit=200&${query}`)).body.items.map(
    (item: { id: string }) => item.id,
  );

describe("sites", () => {
  test("are added to a customer with a reference to say aloud", async () => {
    const customerId = await addCustomer();
    const reply = await office()
      .post("/api/v1/sites")
      .send({ ...SITE, customerId, name: "Mill barn" });
    expect(reply.status).toBe(201);
    expect(reply.body.reference).toMatch(/^S-\d{4}-\d{4}$/);
    expect(reply.body).toMatchObject({ ...SITE, customerId, name: "Mill barn", archivedAt: null });
    const read = await office().get(reply.headers.location as string);
    expect(read.body).toEqual({ ...reply.body, unitCount: 0, openJobCount: 0, units: [] });
  });

  test("are read with the units installed there and the number of open jobs", async () => {
    const { siteId } = await addJobRows(service, { stages: [] });
    const site = { id: siteId, reference: "", serial: "", version: 1 };
    const model = await addModel(service);
    const [kept, gone] = [await receive(service, model.id), await receive(service, model.id)];
    await install(service, kept, site);
    await install(service, gone, site);
    await office().post(`/api/v1/units/${gone.id}/removal`).send({ reason: "Not needed" });
    const { body } = await office().get(`/api/v1/sites/${siteId}`);
    expect([body.unitCount, body.openJobCount]).toEqual([1, 1]);
    expect(body.units.map((unit: { serial: string }) => unit.serial)).toEqual([kept.serial]);
    expect(body.units[0]).toMatchObject({ kind: "battery-pack", bankId: null });
  });

  test("of a customer who is archived, or of another firm, are refused by pointer", async () => {
    const other = await service.addFirm("birch");
    const theirs = await service
      .as(other.people.office)
      .post("/api/v1/customers")
      .send({ name: "Theirs" });
    const refused = await office()
      .post("/api/v1/sites")
      .send({ ...SITE, customerId: theirs.body.id });
    expect([refused.status, pointersOf(refused)]).toEqual([422, ["/body/customerId"]]);
    const customerId = await addCustomer();
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.customer.updateMany({ where: { id: customerId }, data: { archivedAt: new Date() } }),
    );
    const archived = await office()
      .post("/api/v1/sites")
      .send({ ...SITE, customerId });
    expect([archived.status, pointersOf(archived)]).toEqual([422, ["/body/customerId"]]);
    const { id } = await addSite(service);
    const moved = await edit(id, 1, { customerId: theirs.body.id });
    expect([moved.status, pointersOf(moved)]).toEqual([422, ["/body/customerId"]]);
  });

  test("are listed by customer, locality, beginning of the postcode and region", async () => {
    const place = { locality: "Upper Withy", postcode: "TB7 2QQ", region: "us" };
    const site = await addSite(service, place);
    await addSite(service, { locality: "Harrow Fen", postcode: "HF1 1AA", region: "uk" });
    const { body } = await office().get(`/api/v1/sites/${site.id}`);
    for (const query of [
      `customerId=${body.customerId}`,
      "locality=withy",
      "postcode=tb7",
      "region=us",
    ]) {
      expect(await idsOf(query), query).toEqual([site.id]);
    }
    expect(await idsOf("postcode=2QQ")).toEqual([]);
  });

  test("are paged by cursor until the last page says so", async () => {
    for (let sites = 0; sites < 3; sites += 1) await addSite(service, { region: "paged" });
    const seen: string[] = [];
    let path = "/api/v1/sites?region=paged&limit=2";
    for (let pages = 0; path && pages < 5; pages += 1) {
      const reply = await office().get(path);
      seen.push(...reply.body.items.map((item: { id: string }) => item.id));
      path = /<([^>]+)>; rel="next"/.exec(reply.headers.link ?? "")?.[1] ?? "";
    }
    expect(new Set(seen).size).toBe(3);
    expect(seen).toHaveLength(3);
  });

  test.each([
    ["latitude", -90, 201],
    ["latitude", -90.001, 422],
    ["latitude", 90, 201],
    ["latitude", 90.001, 422],
    ["longitude", -180, 201],
    ["longitude", -180.001, 422],
    ["longitude", 180, 201],
    ["longitude", 180.001, 422],
    ["country", "NO", 201],
    ["country", "no", 422],
    ["country", "XX", 422],
    ["timeZone", "America/New_York", 201],
    ["timeZone", "UTC", 201],
    ["timeZone", "Europe/Atlantis", 422],
    ["timeZone", "+01:00", 422],
    ["supply", "TN-S", 201],
    ["supply", "TN-C-S", 201],
    ["supply", "TT", 201],
    ["supply", "split-phase", 201],
    ["supply", "IT", 422],
    ["postcode", "", 422],
    ["region", " ", 422],
  ])("with %s %s get %d", async (field, value, status) => {
    const body = { ...SITE, customerId: await addCustomer(), [field]: value };
    const reply = await office().post("/api/v1/sites").send(body);
    expect(reply.status).toBe(status);
    if (status === 422) expect(pointersOf(reply)).toEqual([`/body/${field}`]);
  });

  test("are edited only against the version that was read", async () => {
    const { id } = await addSite(service);
    expect((await office().patch(`/api/v1/sites/${id}`).send({ region: "us" })).status).toBe(428);
    const done = await edit(id, 1, { region: "us" });
    expect([done.status, done.body.region, done.headers.etag]).toEqual([200, "us", '"2"']);
    expect((await edit(id, 1, { region: "uk" })).status).toBe(412);
  });

  test("are archived, leave the list, and come back", async () => {
    const { id } = await addSite(service, { region: "archive" });
    const archived = await edit(id, 1, { archived: true });
    expect(archived.body.archivedAt).not.toBeNull();
    expect(await idsOf("region=archive")).toEqual([]);
    expect(await idsOf("region=archive&archived=true")).toEqual([id]);
    expect((await edit(id, 2, { archived: false })).body.archivedAt).toBeNull();
    expect(await idsOf("region=archive")).toEqual([id]);
  });

  test("stay archived through other edits", async () => {
    const { id } = await addSite(service);
    const archived = await edit(id, 1, { archived: true });
    const edited = await edit(id, 2, { region: "us" });
    expect(edited.body.archivedAt).toBe(archived.body.archivedAt);
  });

  test("with an open job are not archived", async () => {
    const { siteId } = await addJobRows(service, { stages: [] });
    const reply = await edit(siteId, 1, { archived: true });
    expect([reply.status, reply.body.openJobCount]).toEqual([409, 1]);
  });

  test("of another firm are not there", async () => {
    const other = await service.addFirm("cedar");
    const { id } = await addSite(service);
    const theirs = service.as(other.people.office);
    expect((await theirs.get(`/api/v1/sites/${id}`)).status).toBe(404);
    expect((await theirs.get("/api/v1/sites")).body.items).toEqual([]);
    const edited = await theirs
      .patch(`/api/v1/sites/${id}`)
      .set("if-match", '"1"')
      .send({ region: "x" });
    expect(edited.status).toBe(404);
  });

  test("are read by everyone and changed by owner and office alone", async () => {
    const { id } = await addSite(service);
    for (const role of ["installer", "manager", "auditor"] as const) {
      const client = service.as(service.firm.people[role]);
      expect((await client.get(`/api/v1/sites/${id}`)).status).toBe(200);
      const body = { ...SITE, customerId: await addCustomer() };
      expect((await client.post("/api/v1/sites").send(body)).status).toBe(403);
    }
  });
});

describe("country codes", () => {
  test("are the 249 of ISO 3166-1, each a region that Unicode CLDR names", () => {
    const names = new Intl.DisplayNames(["en"], { type: "region", fallback: "none" });
    const unknown = [...COUNTRY_CODES].filter((code) => names.of(code) === undefined);
    expect([COUNTRY_CODES.size, unknown]).toEqual([249, []]);
  });
});
