// A password that somebody else chose is short-lived, and never the lasting one (OWASP ASVS 5.0.0,
// V6.4.1).
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPerson, NEW_PASSWORD, signIn as signInAs, tokenOf } from "../support/people.ts";
import { pointersOf } from "../support/replies.ts";

let service: TestService;
const DAY_MS = 86_400_000;
let daysOn = 0;
beforeAll(async () => {
  service = await startService({ now: () => new Date(Date.now() + daysOn * DAY_MS) });
});
afterAll(() => service.stop());

const signIn = (email: string, password: string) => signInAs(service, email, password);
const cookiesOf = (reply: { headers: Record<string, unknown> }): string[] =>
  (reply.headers["set-cookie"] as string[]).map((line) => line.split(";")[0]!);

describe("a password that an owner gave", () => {
  const form = (email: string, password: string) =>
    service.anonymous
      .post("/sign-in")
      .set("sec-fetch-site", "same-origin")
      .type("form")
      .send({ email, password, next: "/today" });
  const own = "four small boats at dawn";

  test("leads to choosing another, and signs nobody in after seven days", async () => {
    const { id, email } = await addPerson(service);
    const opened = await form(email, NEW_PASSWORD);
    expect([opened.status, opened.headers.location]).toEqual([303, "/account"]);
    const page = await service.anonymous
      .get("/account")
      .set("cookie", cookiesOf(opened).join("; "))
      .set("accept", "text/html");
    expect(page.text).toContain("Somebody else knows the password");
    daysOn = 6.9;
    expect((await form(email, NEW_PASSWORD)).status).toBe(303);
    daysOn = 7;
    const late = await signIn(email, NEW_PASSWORD);
    expect([late.status, late.body.detail]).toEqual([
      401,
      "This password was given to you for 7 days. Ask an owner for another.",
    ]);
    const given = await service
      .as(service.firm.people.owner)
      .put(`/api/v1/people/${id}/password`)
      .send({ password: "a phrase by an owner" });
    expect([given.status, (await signIn(email, "a phrase by an owner")).status]).toEqual([
      204, 201,
    ]);
    daysOn = 14;
    expect((await signIn(email, "a phrase by an owner")).status).toBe(401);
    daysOn = 0;
  });

  test("gives way to one's own, which lasts", async () => {
    const { email } = await addPerson(service);
    const session = await tokenOf(service, email);
    const same = await service
      .as(session)
      .put("/api/v1/people/me/password")
      .send({ presentPassword: NEW_PASSWORD, password: NEW_PASSWORD });
    expect([same.status, pointersOf(same)]).toEqual([422, ["/body/password"]]);
    const set = await service
      .as(session)
      .put("/api/v1/people/me/password")
      .send({ presentPassword: NEW_PASSWORD, password: own });
    expect(set.status).toBe(204);
    daysOn = 80;
    const opened = await form(email, own);
    expect([opened.status, opened.headers.location]).toEqual([303, "/today"]);
    daysOn = 0;
  });
});
