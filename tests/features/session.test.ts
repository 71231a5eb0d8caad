import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PASSWORD, startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const signIn = (email: string, password = PASSWORD) =>
  service.anonymous.post("/api/v1/session").send({ email, password });

const cookiesOf = (reply: { headers: Record<string, unknown> }): string[] =>
  (reply.headers["set-cookie"] as string[]).map((line) => line.split(";")[0]!);

const refresh = (refreshToken: string) =>
  service.anonymous.post("/api/v1/session/refresh").send({ refreshToken });

const asPage = (path: string) => service.anonymous.get(path).set("accept", "text/html");

describe("signing in", () => {
  test("gives a token that names the person, and cookies that only this host gets", async () => {
    const reply = await signIn("manager@alder.example");
    expect(reply.status).toBe(201);
    expect(reply.body.person.roles).toEqual(["manager"]);
    for (const line of reply.headers["set-cookie"] as unknown as string[]) {
      expect(line).toMatch(/^__Host-(access|refresh)=.+; Path=\/; HttpOnly; Secure; SameSite=Lax$/);
    }
    const who = await service.as({ token: reply.body.accessToken }).get("/api/v1/session");
    expect(who.body).toEqual(reply.body.person);
  });

  test("is refused alike for a wrong password and for an address nobody has", async () => {
    const wrong = await signIn("office@alder.example", "wrong password");
    const nobody = await signIn("nobody@alder.example", "wrong password");
    expect([wrong.status, nobody.status]).toEqual([401, 401]);
    expect(wrong.body.detail).toBe(nobody.body.detail);
  });

  test("is held back after eight failures, and told for how long", async () => {
    for (let tries = 0; tries < 8; tries += 1) {
      expect((await signIn("auditor@alder.example", "guess")).status).toBe(401);
    }
    const held = await signIn("auditor@alder.example");
    expect([held.status, held.body.type]).toEqual([429, "/problems/too-many-sign-ins"]);
    expect(Number(held.headers["retry-after"])).toBeGreaterThan(0);
    expect((await signIn("owner@alder.example")).status).toBe(201);
  });
});

describe("a session", () => {
  test("is renewed by its refresh token, which changes each time", async () => {
    const first = await signIn("office@alder.example");
    const renewed = await service.anonymous
      .post("/api/v1/session/refresh")
      .send({ refreshToken: first.body.refreshToken });
    expect(renewed.status).toBe(201);
    expect(renewed.body.refreshToken).not.toBe(first.body.refreshToken);
  });

  test("is ended when an old refresh token comes back late: it was stolen", async () => {
    const first = await signIn("office@alder.example");
    const second = await refresh(first.body.refreshToken);
    const third = await refresh(second.body.refreshToken);
    expect(third.status).toBe(201);
    expect((await refresh(first.body.refreshToken)).status).toBe(401);
    expect((await refresh(third.body.refreshToken)).status).toBe(401);
  });

  test("is over on every device after signing out everywhere", async () => {
    const one = await signIn("manager@alder.example");
    const two = await signIn("manager@alder.example");
    const onTwo = service.as({ token: two.body.accessToken });
    expect((await onTwo.get("/api/v1/session")).status).toBe(200);
    const out = await service.as({ token: one.body.accessToken }).delete("/api/v1/sessions");
    expect(out.status).toBe(204);
    expect((await onTwo.get("/api/v1/session")).status).toBe(401);
    expect((await refresh(two.body.refreshToken)).status).toBe(401);
  });

  test("with a tampered or unsigned token does not exist", async () => {
    const { token } = service.firm.people.owner;
    const [head, body] = token.split(".");
    const unsigned = `${Buffer.from('{"alg":"none","typ":"JWT"}').toString("base64url")}.${body}.`;
    for (const bad of [`${head}.${body}.AAAA`, unsigned, "x.y.z"]) {
      expect((await service.as({ token: bad }).get("/api/v1/session")).status).toBe(401);
    }
  });

  test("by cookie cannot be used from another site", async () => {
    const cookies = cookiesOf(await signIn("office@alder.example"));
    const add = () =>
      service.anonymous
        .post("/api/v1/customers")
        .set("cookie", cookies.join("; "))
        .send({ name: "Cross Site" });
    expect((await add().set("sec-fetch-site", "cross-site")).body.type).toBe(
      "/problems/cross-site",
    );
    expect((await add().set("origin", "https://evil.example")).status).toBe(403);
    expect((await add()).status).toBe(403);
    expect((await add().set("sec-fetch-site", "same-origin")).status).toBe(201);
  });
});

describe("the sign-in page", () => {
  test("sends on to the page that was asked for, never to another site", async () => {
    const form = (next: string) =>
      service.anonymous
        .post("/sign-in")
        .set("sec-fetch-site", "same-origin")
        .type("form")
        .send({ email: "office@alder.example", password: PASSWORD, next });
    expect((await form("/today?day=2026-11-25")).headers.location).toBe("/today?day=2026-11-25");
    for (const elsewhere of ["//evil.example", "https://evil.example", "/\\evil.example"]) {
      expect((await form(elsewhere)).headers.location).toBe("/");
    }
  });

  test("says what was wrong and keeps the address typed", async () => {
    const reply = await service.anonymous
      .post("/sign-in")
      .set("sec-fetch-site", "same-origin")
      .type("form")
      .send({ email: "<b>@x.example", password: "no" });
    expect(reply.status).toBe(401);
    expect(reply.text).toContain("Address or password is wrong");
    expect(reply.text).toContain('value="&lt;b&gt;@x.example"');
  });

  test("is where an unsigned visitor of any page lands", async () => {
    const reply = await asPage("/today");
    expect([reply.status, reply.headers.location]).toEqual([303, "/sign-in?next=%2Ftoday"]);
  });
});
