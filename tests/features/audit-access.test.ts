// An auditor's access: given by owner or manager, for some days, withdrawn at once; what it is
// limited to holds for whatever is asked for, also what is made later.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
let clock = new Date("2026-11-26T10:00:00Z");
let path: string;
beforeAll(async () => {
  service = await startService({ now: () => clock });
  path = `/api/v1/people/${service.firm.people.auditor.id}/audit-access`;
});
afterAll(() => service.stop());

const as = (role: "owner" | "manager" | "office" | "auditor") =>
  service.as(service.firm.people[role]);
const signIn = () =>
  service.anonymous
    .post("/api/v1/session")
    .send({ email: "auditor@alder.example", password: "correct horse battery" });

describe("giving it", () => {
  test("is for owner and manager, and for an auditor alone", async () => {
    const body = { outside: true, until: "2026-12-10" };
    for (const role of ["office", "auditor"] as const) {
      expect((await as(role).put(path).send(body)).status).toBe(403);
    }
    expect((await as("manager").put(path).send(body)).status).toBe(200);
    const other = `/api/v1/people/${service.firm.people.manager.id}/audit-access`;
    const refused = await as("owner").put(other).send(body);
    expect(refused.status).toBe(409);
    expect(refused.body.detail).toContain("manager person is not an auditor alone");
  });

  test.each([
    [{ outside: true }, "/body/until"],
    [{ outside: true, until: "2026-11-25" }, "/body/until"],
    [{ outside: true, until: "2027-11-28" }, "/body/until"],
    [
      { outside: false, scope: { siteIds: ["019ac000-0000-7000-8000-000000000000"] } },
      "/body/scope/siteIds",
    ],
    [
      { outside: false, scope: { modelIds: ["019ac000-0000-7000-8000-000000000000"] } },
      "/body/scope/modelIds",
    ],
    [
      { outside: false, scope: { period: { from: "2026-02-01", to: "2026-01-01" } } },
      "/body/scope/period/to",
    ],
  ])("refuses %j at %s", async (body, pointer) => {
    const reply = await as("owner").put(path).send(body);
    expect(reply.status).toBe(422);
    expect(reply.body.errors[0].pointer).toBe(pointer);
  });

  test("takes the place of the one before, which stays on record", async () => {
    await as("owner").put(path).send({ outside: true, until: "2026-12-01" });
    const reply = await as("manager").put(path).send({ outside: false });
    expect(reply.body).toMatchObject({ outside: false, from: "2026-11-26", until: null });
    const [now, before] = (await as("owner").get(path)).body.items;
    expect(now).toMatchObject({ id: reply.body.id, withdrawnAt: null });
    expect(before).toMatchObject({ until: "2026-12-01", withdrawnByName: "manager person" });
  });
});

describe("its end", () => {
  test("comes with its last day, by the firm's calendar, for a session under way too", async () => {
    await as("owner").put(path).send({ outside: true, until: "2026-12-10" });
    clock = new Date("2026-12-10T23:59:00Z");
    expect((await as("auditor").get("/api/v1/jobs")).status).toBe(200);
    expect((await signIn()).status).toBe(201);
    clock = new Date("2026-12-11T00:00:00Z");
    const reply = await as("auditor").get("/api/v1/jobs");
    const sentence =
      "Your access to alder ended on 2026-12-10. Ask owner person (owner@alder.example) for a " +
      "new one.";
    expect(reply.status).toBe(403);
    expect(reply.body).toMatchObject({ type: "/problems/access-ended", detail: sentence });
    const refused = await signIn();
    expect(refused.status).toBe(403);
    expect(refused.body.detail).toBe(sentence);
    const page = await as("auditor").get("/").set("accept", "text/html");
    expect(page.status).toBe(403);
    expect(page.text).toContain("ended on 2026-12-10");
  });

  test("refuses fresh tokens, and lets nobody but sign out", async () => {
    clock = new Date("2026-12-10T12:00:00Z");
    const { refreshToken, accessToken } = (await signIn()).body;
    clock = new Date("2026-12-11T00:00:00Z");
    const renewed = await service.anonymous.post("/api/v1/session/refresh").send({ refreshToken });
    expect(renewed.status).toBe(403);
    expect(renewed.body.type).toBe("/problems/access-ended");
    const out = await service.as({ token: accessToken }).delete("/api/v1/session");
    expect(out.status).toBe(204);
  });

  test("comes at once when it is withdrawn, once", async () => {
    clock = new Date("2026-11-26T10:00:00Z");
    await as("owner").put(path).send({ outside: true, until: "2026-12-10" });
    expect((await as("auditor").get("/api/v1/sites")).status).toBe(200);
    expect((await as("manager").delete(path)).status).toBe(204);
    const reply = await as("auditor").get("/api/v1/sites");
    expect(reply.status).toBe(403);
    expect(reply.body.detail).toBe(
      "Your access to alder was withdrawn on 2026-11-26. Ask manager person " +
        "(manager@alder.example) for a new one.",
    );
    expect((await as("manager").delete(path)).status).toBe(409);
  });

  test("is not reached before the first day", async () => {
    await as("owner").put(path).send({ outside: true, from: "2026-11-28", until: "2026-12-10" });
    const refused = await signIn();
    expect(refused.body.detail).toContain("begins on 2026-11-28");
    clock = new Date("2026-11-28T00:00:00Z");
    expect((await signIn()).status).toBe(201);
    clock = new Date("2026-11-26T10:00:00Z");
  });
});
