import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PASSWORD, startService, type TestFirm, type TestService } from "../support/app.ts";
import { addModel, addSite, receive } from "../support/stock.ts";

let service: TestService;
let other: TestFirm;
beforeAll(async () => {
  service = await startService();
  other = await service.addFirm("birch");
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const owner = () => service.as(service.firm.people.owner);

async function post(path: string, body: object) {
  const reply = await office().post(path).send(body);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body;
}

async function edit(path: string, change: object, as = office()) {
  const { headers } = await as.get(path);
  const reply = await as
    .patch(path)
    .set("if-match", headers.etag as string)
    .send(change);
  expect(reply.status, JSON.stringify(reply.body)).toBe(200);
  return reply.body;
}

const changesOf = async (path: string) => (await owner().get(`${path}/changes`)).body.items;
const undo = (path: string, id: string, as = office()) =>
  as.post(`${path}/changes/${id}/undo`).send();

const INSTRUMENT = {
  reference: "IT-01",
  name: "Insulation tester",
  instrumentClass: "insulation-tester",
  serial: "4471",
  accuracy: { percentOfReading: 0.5 },
};

async function subjects() {
  const customer = await post("/api/v1/customers", { name: "Hanne Osei", phone: "1" });
  const site = await addSite(service);
  const model = await addModel(service);
  const unit = await receive(service, model.id, { note: "Scuffed lid" });
  const instrument = await post("/api/v1/instruments", INSTRUMENT);
  return {
    customer: [`/api/v1/customers/${customer.id}`, { name: "H. Osei", phone: null }],
    site: [`/api/v1/sites/${site.id}`, { addressLine: "15 Larch Row", latitude: 52.2 }],
    unit: [`/api/v1/units/${unit.id}`, { note: null, hardwareRevision: "C2" }],
    instrument: [
      `/api/v1/instruments/${instrument.id}`,
      { accuracy: null, retiredOn: "2026-11-01", intervalMonths: 6 },
    ],
    person: [`/api/v1/people/${service.firm.people.auditor.id}`, { name: "A. Person" }],
  } as Record<string, [string, Record<string, unknown>]>;
}

describe("an edit", () => {
  test("of every kind of record is kept with its author, and undone", async () => {
    for (const [kind, [path, change]] of Object.entries(await subjects())) {
      const as = kind === "person" ? owner() : office();
      const who = service.firm.people[kind === "person" ? "owner" : "office"].id;
      const before = (await as.get(path)).body;
      const after = await edit(path, change, as);
      const [kept] = await changesOf(path);
      expect(kept, kind).toMatchObject({ by: { id: who }, canUndo: true, undoesId: null });
      expect(
        kept.fields.map((field: { name: string }) => field.name),
        kind,
      ).toEqual(Object.keys(change).sort());
      const undone = await undo(path, kept.id, as);
      expect([undone.status, undone.body.undoesId], JSON.stringify(undone.body)).toEqual([
        200,
        kept.id,
      ]);
      const now = (await as.get(path)).body;

      expect(now, kind).toMatchObject(
        Object.fromEntries(Object.keys(change).map((name) => [name, before[name]])),
      );
      expect(now.version).toBe(after.version + 1);
      expect((await changesOf(path))[1]).toMatchObject({
        id: kept.id,
        undone: true,
        canUndo: false,
      });
    }
  });

  test("that changed nothing is not kept", async () => {
    const { id } = await post("/api/v1/customers", { name: "Same" });
    await edit(`/api/v1/customers/${id}`, { name: "Same" });
    expect(await changesOf(`/api/v1/customers/${id}`)).toEqual([]);
  });

  test("of a password or a sign-in is not kept", async () => {
    const path = `/api/v1/people/${service.firm.people.manager.id}`;
    const count = (await changesOf(path)).length;
    await owner().post(`${path}/password`).send({ password: "seven quiet lanterns drift" });
    expect(await changesOf(path)).toHaveLength(count);
  });
});

describe("undoing", () => {
  test("is refused once somebody has changed it since, and tells who and what", async () => {
    const { id } = await post("/api/v1/customers", { name: "One" });
    const path = `/api/v1/customers/${id}`;
    await edit(path, { name: "Two" });
    await edit(path, { phone: "07" }, owner());
    const [latest, first] = await changesOf(path);
    const reply = await undo(path, first.id);
    expect([reply.status, reply.body.type]).toEqual([409, "/problems/conflict"]);
    expect(reply.body.detail).toContain("owner person has changed it since (phone");
    expect(reply.body.changes.map((change: { id: string }) => change.id)).toEqual([latest.id]);
    expect((await office().get(path)).body.name).toBe("Two");
    expect((await undo(path, latest.id)).status).toBe(200);
    expect((await undo(path, latest.id)).status).toBe(409);
  });

  test("of an undoing puts the change back", async () => {
    const { id } = await post("/api/v1/customers", { name: "One" });
    const path = `/api/v1/customers/${id}`;
    await edit(path, { name: "Two" });
    const [change] = await changesOf(path);
    const { body } = await undo(path, change.id);
    await undo(path, body.id);
    expect((await office().get(path)).body.name).toBe("Two");
  });

  test("of a unit's note goes on although the unit has moved meanwhile", async () => {
    const model = await addModel(service);
    const unit = await receive(service, model.id, { note: "Old" });
    const path = `/api/v1/units/${unit.id}`;
    await edit(path, { note: "New" });
    const site = await addSite(service);
    expect((await office().post(`${path}/installation`).send({ siteId: site.id })).status).toBe(
      201,
    );
    const [change] = await changesOf(path);
    expect((await undo(path, change.id)).status).toBe(200);
    expect((await office().get(path)).body).toMatchObject({ note: "Old", state: "installed" });
  });

  test("keeps to the rules of edits: it does not take the last owner's role away", async () => {
    const first = service.as(other.people.owner);
    const { id, email } = other.people.manager;
    await edit(`/api/v1/people/${id}`, { roles: ["owner"] }, first);
    const [change] = (await first.get(`/api/v1/people/${id}/changes`)).body.items;
    const signed = await service.anonymous
      .post("/api/v1/session")
      .send({ email, password: PASSWORD });
    const second = service.as({ token: signed.body.accessToken });
    await edit(`/api/v1/people/${other.people.owner.id}`, { roles: ["office"] }, second);
    const reply = await undo(`/api/v1/people/${id}`, change.id, second);
    expect([reply.status, reply.body.detail]).toEqual([
      409,
      expect.stringContaining("last active owner"),
    ]);
  });

  test("with the same Idempotency-Key happens once", async () => {
    const { id } = await post("/api/v1/customers", { name: "One" });
    const path = `/api/v1/customers/${id}`;
    await edit(path, { name: "Two" });
    const [change] = await changesOf(path);
    const send = () => undo(path, change.id).set("idempotency-key", `undo-${change.id}`);
    const [first, second] = [await send(), await send()];
    expect([first.status, second.status, second.body.id]).toEqual([200, 200, first.body.id]);
    expect(await changesOf(path)).toHaveLength(2);
  });

  test.each([
    ["installer", 403],
    ["auditor", 403],
    ["manager", 403],
  ] as const)("a customer's edit is not for the %s", async (role, status) => {
    const { id } = await post("/api/v1/customers", { name: "One" });
    await edit(`/api/v1/customers/${id}`, { name: "Two" });
    const [change] = await changesOf(`/api/v1/customers/${id}`);
    const as = service.as(service.firm.people[role]);
    expect((await undo(`/api/v1/customers/${id}`, change.id, as)).status).toBe(status);
  });

  test("finds no change of another firm, of another thing or of another kind", async () => {
    const { id } = await post("/api/v1/customers", { name: "One" });
    const beside = await post("/api/v1/customers", { name: "Beside" });
    await edit(`/api/v1/customers/${id}`, { name: "Two" });
    const [change] = await changesOf(`/api/v1/customers/${id}`);
    const theirs = service.as(other.people.office);
    expect((await undo(`/api/v1/customers/${id}`, change.id, theirs)).status).toBe(404);
    expect((await undo(`/api/v1/customers/${beside.id}`, change.id)).status).toBe(404);
    expect((await undo(`/api/v1/sites/${id}`, change.id)).status).toBe(404);
    expect((await theirs.get(`/api/v1/customers/${id}/changes`)).status).toBe(404);
  });
});
