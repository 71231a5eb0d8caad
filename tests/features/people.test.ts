import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestFirm, type TestService } from "../support/app.ts";
import { addPerson, editPerson, NEW_PASSWORD, newPerson, signIn } from "../support/people.ts";
import { pointersOf } from "../support/replies.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const owner = (firm: TestFirm = service.firm) => service.as(firm.people.owner);

describe("people", () => {
  test("are added by an owner, and sign in with the first password", async () => {
    const reply = await owner()
      .post("/api/v1/people")
      .send(newPerson({ name: "Ines Falk" }));
    expect(reply.status).toBe(201);
    expect(reply.body).toMatchObject({ name: "Ines Falk", roles: ["installer"], active: true });
    const read = await owner().get(reply.headers.location as string);
    expect([read.body, read.headers.etag]).toEqual([reply.body, '"1"']);
    expect((await signIn(service, reply.body.email, NEW_PASSWORD)).body.person.name).toBe(
      "Ines Falk",
    );
  });

  test("are shown without a trace of their passwords", async () => {
    const { id } = await addPerson(service);
    const replies = [
      await owner().get("/api/v1/people?limit=200"),
      await owner().get(`/api/v1/people/${id}`),
      await editPerson(service, id, 1, { name: "Renamed" }),
    ];
    for (const reply of replies) {
      expect(reply.status).toBe(200);
      expect(reply.text).not.toMatch(/password|argon|epoch/i);
    }
  });

  test("have an address that nobody else signs in with, in any case or firm", async () => {
    await addPerson(service, { email: "once@alder.example" });
    const again = await owner()
      .post("/api/v1/people")
      .send(newPerson({ email: "Once@Alder.example" }));
    expect([again.status, again.body.type]).toEqual([409, "/problems/conflict"]);
    const other = await service.addFirm("birch");
    const theirs = await owner(other)
      .post("/api/v1/people")
      .send(newPerson({ email: "once@alder.example" }));
    expect(theirs.status).toBe(409);
  });

  test("are added once by two requests at the same time", async () => {
    const body = newPerson();
    const send = () => owner().post("/api/v1/people").send(body);
    const replies = await Promise.all([send(), send()]);
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
  });

  test("leave nothing of their password with an Idempotency-Key, which comes again", async () => {
    const body = newPerson();
    const send = (password: string) =>
      owner()
        .post("/api/v1/people")
        .set("idempotency-key", "people-key-0001")
        .send({ ...body, password });
    const [first, second] = [await send(NEW_PASSWORD), await send("another phrase of words")];
    expect([first.status, second.status]).toEqual([201, 201]);
    expect([second.body.id, second.headers["idempotency-replayed"]]).toEqual([
      first.body.id,
      "true",
    ]);
    expect((await signIn(service, body.email, "another phrase of words")).status).toBe(401);
  });

  test.each([
    [11, ["/body/password"]],
    [12, undefined],
    [200, undefined],
    [201, ["/body/password"]],
  ])("take a first password of 12 to 200 characters: %d", async (length, pointers) => {
    const reply = await owner()
      .post("/api/v1/people")
      .send(newPerson({ password: "x".repeat(length) }));
    expect(reply.status).toBe(pointers ? 422 : 201);
    expect(pointersOf(reply)).toEqual(pointers);
  });

  test.each([
    ["their address", { email: "telling.address@alder.example" }, "Telling.Address@alder.example"],
    ["their name", { name: "Wilhelmina Okoro" }, " wilhelmina okoro "],
  ])("cannot have %s for a password", async (_what, fields, password) => {
    const reply = await owner()
      .post("/api/v1/people")
      .send(newPerson({ ...fields, password }));
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/password"]]);
  });

  test.each([
    ["no role", { roles: [] }, "/body/roles"],
    ["a role that is none", { roles: ["boss"] }, "/body/roles/0"],
    ["a role twice", { roles: ["office", "office"] }, "/body/roles"],
    ["no address", { email: "ines at alder" }, "/body/email"],
    ["a name of blanks", { name: "  " }, "/body/name"],
  ])("with %s are refused with the pointer of the field", async (_what, fields, pointer) => {
    const reply = await owner().post("/api/v1/people").send(newPerson(fields));
    expect(reply.status).toBe(422);
    expect(pointersOf(reply)).toContain(pointer);
  });

  test("are listed by name, role and whether they sign in", async () => {
    const { id } = await addPerson(service, { name: "Filtered Auditor", roles: ["auditor"] });
    const names = async (query: string) =>
      (await owner().get(`/api/v1/people?${query}`)).body.items.map(
        (item: { name: string }) => item.name,
      );
    expect(await names("name=filtered")).toEqual(["Filtered Auditor"]);
    expect(await names("name=filtered&role=office")).toEqual([]);
    expect((await editPerson(service, id, 1, { active: false })).status).toBe(200);
    expect(await names("name=filtered")).toEqual([]);
    expect(await names("name=filtered&active=false")).toEqual(["Filtered Auditor"]);
  });

  test("are not for the office to add or edit, nor for an installer to list", async () => {
    const office = service.as(service.firm.people.office);
    const { id } = await addPerson(service);
    expect((await office.post("/api/v1/people").send(newPerson())).status).toBe(403);
    const refused = await office
      .patch(`/api/v1/people/${id}`)
      .set("if-match", '"1"')
      .send({ name: "No" });
    expect([refused.status, refused.body.roles]).toEqual([403, ["owner"]]);
    expect((await office.get("/api/v1/people")).status).toBe(200);
    const installer = service.as(service.firm.people.installer);
    expect((await installer.get("/api/v1/people")).status).toBe(403);
  });

  test("of another firm are not there", async () => {
    const other = await service.addFirm("cedar");
    const { id } = await addPerson(service);
    expect((await owner(other).get(`/api/v1/people/${id}`)).status).toBe(404);
    expect((await editPerson(service, id, 1, { name: "X" }, other)).status).toBe(404);
    const reset = await owner(other)
      .put(`/api/v1/people/${id}/password`)
      .send({ password: NEW_PASSWORD });
    expect(reset.status).toBe(404);
  });

  test("are edited only against the version that was read", async () => {
    const { id } = await addPerson(service);
    expect((await owner().patch(`/api/v1/people/${id}`).send({ name: "A" })).status).toBe(428);
    expect((await editPerson(service, id, 1, { name: "Renamed" })).headers.etag).toBe('"2"');
    const late = await editPerson(service, id, 1, { name: "Too late" });
    expect([late.status, late.body.type]).toEqual([412, "/problems/edited-meanwhile"]);
  });
});
