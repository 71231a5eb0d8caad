import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addSite } from "../support/stock.ts";
import { rowsIn, SMALL_PLAN } from "../support/work-rows.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);

async function post(path: string, body: object) {
  const reply = await office().post(path).send(body);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body;
}

async function edit(path: string, change: object) {
  const { headers } = await office().get(path);
  const reply = await office()
    .patch(path)
    .set("if-match", headers.etag as string)
    .send(change);
  expect(reply.status, JSON.stringify(reply.body)).toBe(200);
  return reply.body;
}

describe("a customer", () => {
  test("with a site on the lists or an open job is not archived, and told why", async () => {
    const site = await addSite(service);
    const { body } = await office().get(`/api/v1/sites/${site.id}`);
    const path = `/api/v1/customers/${body.customerId}`;
    const refuse = async () => office().patch(path).set("if-match", '"1"').send({ archived: true });
    expect((await refuse()).body.reasons).toEqual([`${site.reference} is on the lists`]);
    const { id: planVersionId } = await rowsIn(service).planVersion(SMALL_PLAN);
    const job = { siteId: site.id, kind: "install", title: "Two packs", planVersionId };
    const { reference } = await post("/api/v1/jobs", job);
    const reply = await refuse();
    expect([reply.status, reply.body.reasons]).toEqual([
      409,
      [`${site.reference} has ${reference} open`],
    ]);
    const closed = await office()
      .patch(`/api/v1/sites/${site.id}`)
      .set("if-match", '"1"')
      .send({ archived: true });
    expect([closed.status, closed.body.reasons]).toEqual([409, [reference]]);
  });

  test("without either is archived, leaves the list, and is brought back", async () => {
    const { id } = await post("/api/v1/customers", { name: "Leaving" });
    const path = `/api/v1/customers/${id}`;
    expect((await edit(path, { archived: true })).archivedAt).not.toBeNull();
    const listed = (await office().get("/api/v1/customers?name=Leaving")).body.items;
    expect(listed).toEqual([]);
    expect((await edit(path, { archived: false })).archivedAt).toBeNull();
  });
});
