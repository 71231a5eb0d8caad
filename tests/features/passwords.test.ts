import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { addPerson, editPerson, NEW_PASSWORD, signIn, tokenOf } from "../support/people.ts";
import { pointersOf } from "../support/replies.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

describe("sessions", () => {
  test.each([
    ["roles", { roles: ["installer", "manager"] }, 201],
    ["active", { active: false }, 401],
  ])("end when %s change", async (_what, change, signInAfter) => {
    const { id, email } = await addPerson(service);
    const session = service.as(await tokenOf(service, email));
    expect((await session.get("/api/v1/session")).status).toBe(200);
    expect((await editPerson(service, id, 1, change)).status).toBe(200);
    expect((await session.get("/api/v1/session")).status).toBe(401);
    expect((await signIn(service, email, NEW_PASSWORD)).status).toBe(signInAfter);
  });

  test("go on when only the name changes, or the roles are sent as they are", async () => {
    const { id, email } = await addPerson(service);
    const session = service.as(await tokenOf(service, email));
    const change = { name: "Renamed", roles: ["installer"], active: true };
    expect((await editPerson(service, id, 1, change)).status).toBe(200);
    expect((await session.get("/api/v1/session")).status).toBe(200);
  });
});

/** Holds the firm's people until both requests wait for them, so that they truly meet. */
async function bothInFlight<T>(firmId: string, send: () => Promise<T>): Promise<T> {
  const [holder, watcher] = [service.ownerUrl, service.ownerUrl].map(
    (connectionString) => new pg.Client({ connectionString }),
  ) as [pg.Client, pg.Client];
  await Promise.all([holder.connect(), watcher.connect()]);
  await holder.query("BEGIN");
  await holder.query("SELECT FROM person WHERE firm_id = $1 FOR UPDATE", [firmId]);
  const sent = send();
  const waiting = "SELECT FROM pg_stat_activity WHERE wait_event_type = 'Lock'";
  await expect
    .poll(
      async () => (await watcher.query(`${waiting} AND datname = current_database()`)).rowCount,
      {
        timeout: 10_000,
      },
    )
    .toBe(2);
  await holder.query("COMMIT");
  await Promise.all([holder.end(), watcher.end()]);
  return sent;
}

describe("the last active owner", () => {
  test("cannot be demoted or deactivated, until there is another", async () => {
    const firm = await service.addFirm("dogwood");
    const { id } = firm.people.owner;
    const demoted = await editPerson(service, id, 1, { roles: ["office"] }, firm);
    expect([demoted.status, demoted.body.type]).toEqual([409, "/problems/conflict"]);
    expect((await editPerson(service, id, 1, { active: false }, firm)).status).toBe(409);
    expect((await editPerson(service, id, 1, { roles: ["owner", "office"] }, firm)).status).toBe(
      200,
    );
    const { token } = await tokenOf(service, "owner@dogwood.example", PASSWORD);
    firm.people.owner.token = token;
    await addPerson(service, { email: "second@dogwood.example", roles: ["owner"] }, firm);
    expect((await editPerson(service, id, 2, { roles: ["office"] }, firm)).status).toBe(200);
  });

  test("is still there after two owners demote each other at the same time", async () => {
    const firm = await service.addFirm("elm");
    const second = await addPerson(
      service,
      { email: "second@elm.example", roles: ["owner"] },
      firm,
    );
    const demote = (id: string) => editPerson(service, id, 1, { roles: ["office"] }, firm);
    const replies = await bothInFlight(firm.firmId, () =>
      Promise.all([demote(firm.people.owner.id), demote(second.id)]),
    );
    expect(replies.map(({ status }) => status).sort()).toEqual([200, 409]);
  });
});

describe("setting a password", () => {
  const setOwn = (session: { token: string }, presentPassword: string, password: string) =>
    service.as(session).put("/api/v1/people/me/password").send({ presentPassword, password });

  test("of one's own needs the present one and ends the other sessions only", async () => {
    const { email } = await addPerson(service);
    const [here, elsewhere] = [await tokenOf(service, email), await tokenOf(service, email)];
    const wrong = await setOwn(here, "not the present one", "four small boats at dawn");
    expect([wrong.status, pointersOf(wrong)]).toEqual([422, ["/body/presentPassword"]]);
    expect((await setOwn(here, NEW_PASSWORD, "four small boats at dawn")).status).toBe(204);
    expect((await service.as(here).get("/api/v1/session")).status).toBe(200);
    expect((await service.as(elsewhere).get("/api/v1/session")).status).toBe(401);
    expect((await signIn(service, email, NEW_PASSWORD)).status).toBe(401);
    expect((await signIn(service, email, "four small boats at dawn")).status).toBe(201);
  });

  test("of one's own refuses a short one and one's own name", async () => {
    const { email } = await addPerson(service, { name: "Bartholomew Quill" });
    const session = await tokenOf(service, email);
    for (const password of ["too short", "bartholomew quill"]) {
      const reply = await setOwn(session, NEW_PASSWORD, password);
      expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/password"]]);
    }
  });

  test("is held back after eight wrong guesses at the present one", async () => {
    const { email } = await addPerson(service);
    const session = await tokenOf(service, email);
    for (let tries = 0; tries < 8; tries += 1) {
      expect((await setOwn(session, "a guess at it", "another phrase of words")).status).toBe(422);
    }
    const held = await setOwn(session, NEW_PASSWORD, "another phrase of words");
    expect([held.status, held.body.type]).toEqual([429, "/problems/too-many-sign-ins"]);
  });

  test("for who forgot theirs is an owner's, and ends every session of that person", async () => {
    const { id, email } = await addPerson(service);
    const session = await tokenOf(service, email);
    const reset = (as: { token: string }) =>
      service
        .as(as)
        .put(`/api/v1/people/${id}/password`)
        .send({ password: "a phrase by an owner" });
    expect((await reset(service.firm.people.office)).status).toBe(403);
    expect((await reset(service.firm.people.owner)).status).toBe(204);
    expect((await service.as(session).get("/api/v1/session")).status).toBe(401);
    expect((await signIn(service, email, "a phrase by an owner")).status).toBe(201);
  });
});
