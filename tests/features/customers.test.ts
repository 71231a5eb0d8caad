import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);

async function addCustomer(name: string) {
  const reply = await office().post("/api/v1/customers").send({ name });
  expect(reply.status).toBe(201);
  return reply.body as { id: string; reference: string; version: number };
}

describe("customers", () => {
  test("are taken on with a reference to say aloud and an address to read them at", async () => {
    const reply = await office()
      .post("/api/v1/customers")
      .send({ name: "Hanne Osei", phone: "0117 4960 123" });
    expect(reply.status).toBe(201);
    expect(reply.body.reference).toMatch(/^C-\d{4}-\d{4}$/);
    const read = await office().get(reply.headers.location as string);
    expect(read.body).toEqual(reply.body);
    expect(read.headers.etag).toBe('"1"');
  });

  test("are paged by cursor until the last page says so", async () => {
    for (const name of ["Page one", "Page two", "Page three"]) await addCustomer(name);
    const names: string[] = [];
    let path = "/api/v1/customers?name=page&limit=2";
    for (let pages = 0; path && pages < 5; pages += 1) {
      const reply = await office().get(path);
      names.push(...reply.body.items.map((item: { name: string }) => item.name));
      path = /<([^>]+)>; rel="next"/.exec(reply.headers.link ?? "")?.[1] ?? "";
    }
    expect(names).toEqual(["Page one", "Page two", "Page three"]);
  });

  test("are edited only against the version that was read", async () => {
    const { id } = await addCustomer("Edited Person");
    const path = `/api/v1/customers/${id}`;
    expect((await office().patch(path).send({ name: "A" })).status).toBe(428);
    const done = await office().patch(path).set("if-match", '"1"').send({ name: "Renamed" });
    expect([done.status, done.body.name, done.headers.etag]).toEqual([200, "Renamed", '"2"']);
    const late = await office().patch(path).set("if-match", '"1"').send({ name: "Too late" });
    expect([late.status, late.body.type]).toEqual([412, "/problems/edited-meanwhile"]);
  });

  test("are made once for one Idempotency-Key, and the reply is replayed", async () => {
    const send = (name: string) =>
      office().post("/api/v1/customers").set("idempotency-key", "booking-4711").send({ name });
    const [first, second] = await Promise.all([send("Once Only"), send("Once Only")]);
    expect([first.status, second.status]).toEqual([201, 201]);
    expect(first.body.id).toBe(second.body.id);
    expect((await send("Another")).body.type).toBe("/problems/idempotency-key-reused");
    const listed = await office().get("/api/v1/customers?name=once+only");
    expect(listed.body.items).toHaveLength(1);
  });

  test("of another firm are not there", async () => {
    const other = await service.addFirm("birch");
    const { id } = await addCustomer("Ours Alone");
    const theirs = service.as(other.people.office);
    expect((await theirs.get(`/api/v1/customers/${id}`)).status).toBe(404);
    expect((await theirs.get("/api/v1/customers")).body.items).toEqual([]);
    const edit = await theirs
      .patch(`/api/v1/customers/${id}`)
      .set("if-match", '"1"')
      .send({ name: "X" });
    expect(edit.status).toBe(404);
  });

  test("are not for the installer to add, and nobody reads them unsigned", async () => {
    const installer = service.as(service.firm.people.installer);
    const refused = await installer.post("/api/v1/customers").send({ name: "No" });
    expect([refused.status, refused.body.roles]).toEqual([403, ["owner", "office"]]);
    expect((await service.anonymous.get("/api/v1/customers")).status).toBe(401);
  });

  test("with a bad field are refused with the pointer of the field", async () => {
    const reply = await office().post("/api/v1/customers").send({ name: "  ", nickname: "x" });
    expect(reply.status).toBe(422);
    expect(reply.headers["content-type"]).toContain("application/problem+json");
    const pointers = reply.body.errors.map((error: { pointer: string }) => error.pointer);
    expect(pointers).toContain("/body/name");
  });
});
