import { TOTP } from "otpauth";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { stepOf } from "../../src/features/two-step/codes.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";

let service: TestService;
let clock = new Date("2026-03-02T09:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => clock });
});
afterAll(() => service.stop());

const later = (seconds: number): void => {
  clock = new Date(clock.getTime() + seconds * 1000);
};
const signIn = (email: string, code?: string) =>
  service.anonymous.post("/api/v1/session").send({ email, password: PASSWORD, code });

/** An authenticator that has read the picture. */
const shownBy = (uri: string): string =>
  new TOTP({ secret: new URL(uri).searchParams.get("secret")! }).generate({
    timestamp: clock.getTime(),
  });

async function enrol(person: { token: string }) {
  const begun = await service
    .as(person)
    .post("/api/v1/people/me/two-step")
    .send({ presentPassword: PASSWORD });
  expect(begun.status).toBe(201);
  const done = await service
    .as(person)
    .post("/api/v1/people/me/two-step/confirmation")
    .send({ code: shownBy(begun.body.uri) });
  expect(done.status).toBe(201);
  return { uri: begun.body.uri as string, recoveryCodes: done.body.recoveryCodes as string[] };
}

describe("codes", () => {
  // RFC 6238 appendix B, the SHA-1 rows; the last six of their eight digits, as RFC 4226 5.3 cuts.
  const secret = "GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ";
  test.each([
    [59, "287082", 1n],
    [1_111_111_109, "081804", 37_037_036n],
    [1_111_111_111, "050471", 37_037_037n],
    [1_234_567_890, "005924", 41_152_263n],
    [2_000_000_000, "279037", 66_666_666n],
    [20_000_000_000, "353130", 666_666_666n],
  ])("at %i seconds %s is of step %i", (seconds, code, step) => {
    expect(stepOf(secret, code, new Date(seconds * 1000))).toBe(step);
  });

  test("count one step early or late and no further", () => {
    const at = (seconds: number) => stepOf(secret, "287082", new Date(seconds * 1000));
    expect([at(29), at(60), at(89)]).toEqual([1n, 1n, 1n]);
    expect([at(90), stepOf(secret, "287083", new Date(59_000))]).toEqual([undefined, undefined]);
  });
});

describe("a person with a second step", () => {
  test("signs in with the code shown, once, and no other way", async () => {
    const { email, token } = service.firm.people.office;
    const { uri } = await enrol({ token });
    later(60);
    const without = await signIn(email);
    expect([without.status, without.body.type]).toEqual([401, "/problems/second-step-needed"]);
    expect((await signIn(email, "000000")).status).toBe(401);
    const code = shownBy(uri);
    expect((await signIn(email, code)).status).toBe(201);
    expect((await signIn(email, code)).status).toBe(401);
    later(30);
    expect((await signIn(email, shownBy(uri))).status).toBe(201);
  });

  test("signs in with each recovery code once", async () => {
    const { email, token } = service.firm.people.manager;
    const { recoveryCodes } = await enrol({ token });
    expect(new Set(recoveryCodes).size).toBe(10);
    const [first, second] = recoveryCodes as [string, string];
    expect((await signIn(email, first.toUpperCase())).status).toBe(201);
    expect((await signIn(email, first)).status).toBe(401);
    expect((await signIn(email, second)).status).toBe(201);
  });

  test("takes it off with a code only; the owner for whoever lost it", async () => {
    const { email, token } = service.firm.people.auditor;
    const { recoveryCodes } = await enrol({ token });
    const end = (code: string) =>
      service.as({ token }).post("/api/v1/people/me/two-step/ending").send({ code });
    expect((await end("123456")).status).toBe(422);
    expect((await end(recoveryCodes[0]!)).status).toBe(204);
    expect((await signIn(email)).status).toBe(201);

    await enrol({ token });
    const reset = (as: { token: string }) =>
      service.as(as).post(`/api/v1/people/${service.firm.people.auditor.id}/two-step/ending`);
    expect((await reset(service.firm.people.office)).status).toBe(403);
    expect((await reset(service.firm.people.owner)).status).toBe(204);
    expect((await signIn(email)).status).toBe(201);
    // Every session of the person has ended with it.
    expect((await service.as({ token }).get("/api/v1/session")).status).toBe(401);
  });
});

describe("a firm that asks for it", () => {
  test("lets a person without one do nothing but set it up", async () => {
    const { installer, owner } = service.firm.people;
    const asked = await service
      .as(owner)
      .put("/api/v1/firm/two-step-roles")
      .send({ roles: ["installer"] });
    expect(asked.status).toBe(200);
    const opened = await signIn(installer.email);
    const token = opened.body.accessToken as string;
    const held = await service.as({ token }).get("/api/v1/jobs");
    expect([held.status, held.body.type]).toEqual([403, "/problems/second-step-missing"]);
    const { uri } = await enrol({ token });
    later(60);
    const again = await signIn(installer.email, shownBy(uri));
    const jobs = await service.as({ token: again.body.accessToken }).get("/api/v1/jobs");
    expect(jobs.status).toBe(200);
  });
});

describe("half a sign-in", () => {
  const form = (path: string, fields: object) =>
    service.anonymous
      .post(path)
      .type("form")
      .set({ accept: "text/html", "sec-fetch-site": "same-origin" })
      .send(fields);

  test("on the page leads to the code, opens nothing itself, and ends signed in", async () => {
    const fresh = await service.addFirm("rowan");
    const { email, token } = fresh.people.owner;
    const { uri, recoveryCodes } = await enrol({ token });
    later(60);
    const page = await form("/sign-in", { email, password: PASSWORD, next: "/fleet" });
    expect(page.status).toBe(200);
    expect(page.get("set-cookie")).toBeUndefined();
    const half = /name="half" value="([^"]+)"/.exec(page.text)![1]!;
    expect((await service.as({ token: half }).get("/api/v1/session")).status).toBe(401);

    const wrong = await form("/sign-in/code", { half, code: "000000", next: "/fleet" });
    expect([wrong.status, wrong.get("set-cookie")]).toEqual([401, undefined]);
    const right = await form("/sign-in/code", { half, code: shownBy(uri), next: "/fleet" });
    expect([right.status, right.get("location")]).toEqual([303, "/fleet"]);
    expect(right.get("set-cookie")).toHaveLength(2);

    // An access token is not half a sign-in either.
    const swapped = await form("/sign-in/code", { half: token, code: recoveryCodes[0] });
    expect(swapped.get("location")).toBe("/sign-in");
  });
});
