import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { setupCodeOf } from "../../src/features/first-run/setup-code.ts";
import {
  commonPasswords,
  isCommonPassword,
  PASSWORD_LENGTH_MIN,
} from "../../src/features/people/breached-passwords.ts";
import { startService, type TestService } from "../support/app.ts";
import { addPerson, NEW_PASSWORD, newPerson, signIn, tokenOf } from "../support/people.ts";
import { pointersOf } from "../support/replies.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

/** The first of twelve signs in the list. */
const EVERYBODYS = "qwerty123456";

const setOwn = (session: { token: string }, password: string) =>
  service
    .as(session)
    .put("/api/v1/people/me/password")
    .send({ presentPassword: NEW_PASSWORD, password });

describe("a password", () => {
  test("that everybody tries is refused, wherever one is set", async () => {
    const owner = service.as(service.firm.people.owner);
    const first = await owner.post("/api/v1/people").send(newPerson({ password: EVERYBODYS }));
    expect([first.status, pointersOf(first)]).toEqual([422, ["/body/password"]]);
    const { id, email } = await addPerson(service);
    const own = await setOwn(await tokenOf(service, email), "1Q2w3e4r5t6Y");
    expect([own.status, pointersOf(own)]).toEqual([422, ["/body/password"]]);
    const reset = await owner.put(`/api/v1/people/${id}/password`).send({
      password: "leavemealone",
    });
    expect([reset.status, pointersOf(reset)]).toEqual([422, ["/body/password"]]);
  });

  test("at least 3,000 of them are long enough to be taken otherwise", async () => {
    const known = await commonPasswords();
    const shortest = Math.min(...[...known].map((text) => text.length));
    expect(known.size).toBeGreaterThanOrEqual(3000);
    expect(shortest).toBeGreaterThanOrEqual(PASSWORD_LENGTH_MIN);
    expect(await isCommonPassword(NEW_PASSWORD)).toBe(false);
  });

  test("made up of the product's name, or of its person's, is refused", async () => {
    const { email } = await addPerson(service, {
      name: "Bartholomew Quill",
      email: "b.quill@sandpiper.example",
    });
    const session = await tokenOf(service, email);
    for (const password of [
      "Holdpoint-2031!!",
      "quillbartholomew",
      "sandpiper-quill-77",
      "holdpointHOLDPOINT",
    ]) {
      const reply = await setOwn(session, password);
      expect([password, reply.status, pointersOf(reply)]).toEqual([
        ...[password, 422, ["/body/password"]],
      ]);
    }
    expect((await setOwn(session, "a quill under the seventh stone")).status).toBe(204);
  });

  test.each([
    ["letters alone", "onlylowerletters"],
    ["digits and signs alone", "7391-0482-6615!"],
    ["another script", "тихая ночь над рекой"],
  ])("may be of %s", async (_what, password) => {
    const { email } = await addPerson(service);
    expect((await setOwn(await tokenOf(service, email), password)).status).toBe(204);
    expect((await signIn(service, email, password)).status).toBe(201);
  });

  test("counts exactly as it was typed: case, spaces and every sign", async () => {
    const long = `  Two Spaces first, then ${"words and ".repeat(15)}an end`;
    const { email } = await addPerson(service);
    expect((await setOwn(await tokenOf(service, email), long)).status).toBe(204);
    expect((await signIn(service, email, long)).status).toBe(201);
    for (const other of [long.trim(), long.toLowerCase(), long.slice(0, -1), `${long} `]) {
      expect((await signIn(service, email, other)).status).toBe(401);
    }
  });

  test("is hidden while it is typed, and may be filled in by a password manager", async () => {
    const { token } = service.firm.people.office;
    const pages = [
      await service.anonymous.get("/sign-in").set("accept", "text/html"),
      await service.as({ token }).get("/account").set("accept", "text/html"),
      await service.as({ token }).get("/account/two-step").set("accept", "text/html"),
    ];
    const fields = pages.flatMap(({ text }) => [
      ...text.matchAll(/<input[^>]*name="(?:presentP|p)assword"[^>]*>/g),
    ]);
    expect(fields).toHaveLength(4);
    for (const [field] of fields) {
      expect(field).toContain('type="password"');
      expect(field).toMatch(/autocomplete="(?:current|new)-password"/);
      expect(field).not.toContain("onpaste");
    }
  });
});

test("the code of the first start is 128 bits", () => {
  expect(setupCodeOf("a secret of forty characters for the tests")).toMatch(/^[0-9A-F]{32}$/);
});
