import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { say } from "../../src/language/say.ts";
import { startService, type TestService } from "../support/app.ts";
import { NEW_PASSWORD, signIn } from "../support/people.ts";

let service: TestService;
let clock = new Date("2026-03-02T09:00:00Z");
beforeAll(async () => {
  service = await startService({
    now: () => clock,
    environment: { PUBLIC_URL: "https://jobs.alder.example" },
  });
});
afterAll(() => service.stop());

const pages = (token?: string) => ({
  accept: "text/html",
  "sec-fetch-site": "same-origin",
  ...(token ? { cookie: `__Host-access=${token}` } : {}),
});
const post = (path: string, fields: object, token?: string) =>
  service.anonymous.post(path).type("form").set(pages(token)).send(fields);
const get = (path: string, token?: string) => service.anonymous.get(path).set(pages(token));
const owner = () => service.firm.people.owner.token;

/** The paths of the invitations in the outbox, the newest last. */
const mailedTo = (recipient: string): Promise<string[]> =>
  inFirm(service.db, service.firm.firmId, async (tx) => {
    const mails = await tx.mail.findMany({
      where: { firmId: tx.firmId, recipient },
      orderBy: { id: "asc" },
    });
    return mails.map(({ textBody }) => /https:\/\/jobs\.alder\.example(\S+)/.exec(textBody)![1]!);
  });

async function invited(email: string): Promise<string> {
  const reply = await post("/people", { name: "Wren Ash", email, roles: "installer" }, owner());
  expect([reply.status, reply.headers.location]).toEqual([303, "/people"]);
  return (await mailedTo(email)).at(-1)!;
}
const accept = (path: string, password = NEW_PASSWORD) => post(path, { password, language: "es" });

test("an invitation opens an account once, in the chosen language", async () => {
  const path = await invited("wren@alder.example");
  const list = await get("/people", owner());
  expect(list.text).toContain("Wren Ash");
  expect(list.text).toContain(say("en", "people.invited"));
  expect((await signIn(service, "wren@alder.example")).status).toBe(401);

  const short = await accept(path, "short");
  expect(short.status).toBe(422);
  expect(short.text).toContain("at least 12 characters");
  const telling = await accept(path, "wren@alder.example");
  expect(telling.status).toBe(422);

  const opened = await accept(path);
  expect([opened.status, opened.headers.location]).toEqual([303, "/"]);
  const access = /__Host-access=([^;]+)/.exec(String(opened.headers["set-cookie"]))![1]!;
  expect((await get("/account", access)).text).toContain('<html lang="es">');
  expect((await signIn(service, "wren@alder.example")).status).toBe(201);
  expect([(await get(path)).status, (await accept(path)).status]).toEqual([404, 404]);
});

test("a newer invitation replaces the older, and each runs out after a week", async () => {
  const first = await invited("robin@alder.example");
  const page = await get("/people", owner());
  const again = /action="(\/people\/[0-9a-f-]{36}\/invitation)"/.exec(page.text)![1]!;
  expect((await post(again, {}, owner())).status).toBe(303);
  const second = (await mailedTo("robin@alder.example")).at(-1)!;
  expect([(await get(first)).status, (await get(second)).status]).toEqual([404, 200]);
  clock = new Date(clock.getTime() + 7 * 24 * 3_600_000);
  expect([(await get(second)).status, (await accept(second)).status]).toEqual([404, 404]);
});

test("a link that was altered opens nothing", async () => {
  const path = await invited("finch@alder.example");
  const at = path.length - 5;
  const altered = path.slice(0, at) + (path[at] === "A" ? "B" : "A") + path.slice(at + 1);
  expect((await get(altered)).status).toBe(404);
  expect((await get("/invitation/no/thing/here")).status).toBe(404);
  expect((await accept("/invitation/no/thing/here")).status).toBe(404);
});

test("only an owner invites, and an address is one person's", async () => {
  const fields = { name: "Lark", email: "lark@alder.example", roles: "office" };
  const byOffice = await post("/people", fields, service.firm.people.office.token);
  expect(byOffice.status).toBe(403);
  const taken = await post("/people", { ...fields, email: "office@alder.example" }, owner());
  expect(taken.status).toBe(422);
  expect(taken.text).toContain("somebody&#x27;s already");
  expect(taken.text).toContain('value="Lark"');
});

test("two who open one invitation at once: one account", async () => {
  const path = await invited("twin@alder.example");
  const replies = await Promise.all([accept(path), accept(path, "another quiet lantern")]);
  expect(replies.map(({ status }) => status).sort()).toEqual([303, 404]);
});
