// How long a session lasts and what ends it (OWASP ASVS 5.0.0, V7.2 to V7.5 and V3.3.4; the days
// are those of docs/security.md).
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { addPerson, NEW_PASSWORD, tokenOf } from "../support/people.ts";

let service: TestService;
const HOST = "alder.example";
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
const stands = async (token: string) => (await service.as({ token }).get("/api/v1/session")).status;

const daysOf = (life: { days?: number; hours?: number }) =>
  (life.days ?? 0) + (life.hours ?? 0) / 24;

/** The session's row behind the scenes, with `change` made to it first. */
async function sessionRow(accessToken: string, asked: string, change = "user_agent = user_agent") {
  const claims = Buffer.from(accessToken.split(".")[1]!, "base64url").toString("utf8");
  const client = new pg.Client({ connectionString: service.ownerUrl });
  await client.connect();
  const { rows } = await client.query(
    `UPDATE session SET ${change} WHERE id = $1 RETURNING ${asked}`,
    [JSON.parse(claims).sid],
  );
  await client.end();
  return rows;
}

describe("a session", () => {
  test("unused for 30 days is over", async () => {
    const { body } = await signIn("office@alder.example");
    const [row] = await sessionRow(body.accessToken, "expires_at - rotated_at AS life");
    expect(Math.round(daysOf(row.life))).toBe(30);
    await sessionRow(body.accessToken, "expires_at", "expires_at = now() - interval '1 s'");
    expect((await refresh(body.refreshToken)).status).toBe(401);
  });

  test("is over 90 days after signing in, however much it is used", async () => {
    const { body } = await signIn("office@alder.example");
    await sessionRow(body.accessToken, "id", "created_at = now() - interval '80 days'");
    const renewed = await refresh(body.refreshToken);
    expect(renewed.status).toBe(201);
    const [row] = await sessionRow(body.accessToken, "expires_at - created_at AS life");
    expect(daysOf(row.life)).toBe(90);
    await sessionRow(body.accessToken, "id", "created_at = now() - interval '91 days'");
    const last = await refresh(renewed.body.refreshToken);
    expect((await refresh(last.body.refreshToken)).status).toBe(401);
  });

  test("that was open in the same browser ends with the next sign-in", async () => {
    const first = await signIn("office@alder.example");
    const again = (cookie: string) =>
      service.anonymous
        .post("/api/v1/session")
        .set("cookie", cookie)
        .set("sec-fetch-site", "same-origin")
        .send({ email: "manager@alder.example", password: PASSWORD });
    const another = await signIn("owner@alder.example");
    const sid = String(first.body.refreshToken).split(".").slice(0, 2).join(".");
    const made = `${sid}.${String(another.body.refreshToken).split(".")[2]}`;
    expect((await again(`__Host-refresh=${made}`)).status).toBe(201);
    expect(await stands(first.body.accessToken)).toBe(200);
    const second = await again(cookiesOf(first).join("; "));
    expect([second.status, await stands(first.body.accessToken)]).toEqual([201, 401]);
    expect((await refresh(first.body.refreshToken)).status).toBe(401);
    const form = await service.anonymous
      .post("/sign-in")
      .set("cookie", cookiesOf(second).join("; "))
      .set("sec-fetch-site", "same-origin")
      .type("form")
      .send({ email: "office@alder.example", password: PASSWORD });
    expect(form.status).toBe(303);
    const token = cookiesOf(second).find((line) => line.startsWith("__Host-refresh="))!;
    const { body } = await refresh(token.slice("__Host-refresh=".length));
    expect(body.detail).toBe("The session has ended. Sign in again.");
  });

  test("of a browser is in cookies alone: no script can read its tokens", async () => {
    for (const [header, value] of [
      ["sec-fetch-site", "same-origin"],
      ["origin", `https://${HOST}`],
    ] as const) {
      const opened = await signIn("office@alder.example").set("host", HOST).set(header, value);
      expect([opened.status, Object.keys(opened.body)]).toEqual([201, ["expiresInS", "person"]]);
      const cookies = cookiesOf(opened);
      const renewed = await service.anonymous
        .post("/api/v1/session/refresh")
        .set("cookie", cookies.join("; "))
        .set("host", HOST)
        .set(header, value)
        .send({});
      expect([renewed.status, Object.keys(renewed.body)]).toEqual([201, ["expiresInS", "person"]]);
      for (const line of [...cookies, ...cookiesOf(renewed)]) {
        const secret = line.slice(line.indexOf("=") + 1);
        expect(secret.length).toBeGreaterThan(40);
        expect(opened.text + renewed.text).not.toContain(secret);
      }
    }
  });
});

describe("the account's page", () => {
  const end = (as: { token: string }, session: string, proof: string) =>
    service.as(as).post("/account/sessions/ending").type("form").send({ session, proof });
  const sidOf = ({ token }: { token: string }): string =>
    JSON.parse(Buffer.from(token.split(".")[1]!, "base64url").toString("utf8")).sid;

  test("lists where one is signed in, and ends it for the present password alone", async () => {
    const { email } = await addPerson(service);
    const [here, one, two] = [
      await tokenOf(service, email),
      await tokenOf(service, email),
      await tokenOf(service, email),
    ];
    const page = await service.as(here).get("/account").set("accept", "text/html");
    for (const token of [one, two]) expect(page.text).toContain(`value="${sidOf(token)}"`);
    const wrong = await end(here, sidOf(one), "not the present one");
    expect([wrong.status, await stands(one.token)]).toEqual([422, 200]);
    expect(wrong.text).toContain("is not your present password");
    expect((await end(here, sidOf(one), NEW_PASSWORD)).status).toBe(303);
    expect([await stands(one.token), await stands(two.token)]).toEqual([401, 200]);
    expect((await end(here, "others", NEW_PASSWORD)).status).toBe(303);
    expect([await stands(two.token), await stands(here.token)]).toEqual([401, 200]);
  });

  test("does not end another person's session", async () => {
    const [mine, theirs] = [await addPerson(service), await addPerson(service)];
    const [here, there] = [
      await tokenOf(service, mine.email),
      await tokenOf(service, theirs.email),
    ];
    expect((await end(here, sidOf(there), NEW_PASSWORD)).status).toBe(303);
    expect(await stands(there.token)).toBe(200);
  });
});
