// Nobody looks at a firm as an auditor alone without an access that ends.
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { addPerson as storePerson } from "../../src/features/people/store.ts";
import { quickHash, startService, type TestService } from "../support/app.ts";
import { addPerson, editPerson, NEW_PASSWORD, newPerson } from "../support/people.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const owner = () => service.as(service.firm.people.owner);
const accessesOf = async (id: string) =>
  (await owner().get(`/api/v1/people/${id}/audit-access`)).body.items;
const signIn = (email: string, password = NEW_PASSWORD) =>
  service.anonymous.post("/api/v1/session").send({ email, password });
const daysOf = ({ from, until }: { from: string; until: string }) =>
  (Date.parse(until) - Date.parse(from)) / 86_400_000;

test("whoever is added as an auditor alone has the whole firm for thirty days", async () => {
  const { id, email } = await addPerson(service, { roles: ["auditor"] });
  const accesses = await accessesOf(id);
  expect(accesses).toMatchObject([
    { outside: true, givenByName: "owner person", withdrawnAt: null },
  ]);
  expect(daysOf(accesses[0])).toBe(30);
  expect((await signIn(email)).status).toBe(201);
});

test("an auditor with another role has none, and gets one on losing that role", async () => {
  const { id, version } = await addPerson(service, { roles: ["auditor", "office"] });
  expect(await accessesOf(id)).toEqual([]);
  expect((await editPerson(service, id, version, { roles: ["auditor"] })).status).toBe(200);
  expect((await accessesOf(id)).map(daysOf)).toEqual([30]);
});

test("an access that stands stays when roles go and come", async () => {
  const { id, version } = await addPerson(service, { roles: ["auditor"] });
  const asked = { outside: false, scope: {} };
  const given = await owner().put(`/api/v1/people/${id}/audit-access`).send(asked);
  expect(given.status).toBe(200);
  const more = await editPerson(service, id, version, { roles: ["auditor", "office"] });
  await editPerson(service, id, more.body.version, { roles: ["auditor"] });
  const accesses = await accessesOf(id);
  expect([accesses.length, accesses[0].id]).toEqual([2, given.body.id]);
});

test("undoing an edit gives an access too", async () => {
  const { id, version } = await addPerson(service, { roles: ["auditor"] });
  await owner().delete(`/api/v1/people/${id}/audit-access`).expect(204);
  expect((await editPerson(service, id, version, { roles: ["office"] })).status).toBe(200);
  const [change] = (await owner().get(`/api/v1/people/${id}/changes`)).body.items;
  const undone = await owner().post(`/api/v1/people/${id}/changes/${change.id}/undo`).send();
  expect([undone.status, undone.body.detail]).toEqual([200, undefined]);
  expect((await accessesOf(id)).map((one: { withdrawnAt: unknown }) => one.withdrawnAt)).toEqual([
    null,
    expect.any(String),
  ]);
});

test("an auditor to whom none was given sees nothing and reads whom to ask", async () => {
  const { email, name } = newPerson();
  const passwordHash = await quickHash();
  await inFirm(service.db, service.firm.firmId, (tx) =>
    storePerson(tx, { email, name, roles: ["auditor"], passwordHash }),
  );
  const reply = await signIn(email, "correct horse battery");
  expect([reply.status, reply.body.detail]).toEqual([
    403,
    "No access to alder was given to you yet. Ask owner person (owner@alder.example) for one.",
  ]);
});
