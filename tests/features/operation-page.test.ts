// The operator's page: who opens it, for how long, and that it shows what the interface tells.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { cookieOf, OPERATOR_TOKEN, operatorAt } from "../support/operator.ts";
import { words } from "../support/page-forms.ts";

const START = new Date("2026-11-26T08:00:00Z");
const ADVICE = "Set SMTP_URL: without it no mail leaves.";
const folder = mkdtempSync(join(tmpdir(), "holdpoint-operator-"));
let now = START;
let service: TestService;
beforeAll(async () => {
  const environment = { METRICS_TOKEN: OPERATOR_TOKEN, DATA_DIR: folder };
  service = await startService({ environment, now: () => now });
});
beforeEach(() => {
  now = START;
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true });
});

const { typed, page, bearer, opened } = operatorAt(() => service.anonymous);
const minutesLater = (minutes: number) => new Date(START.getTime() + minutes * 60_000);
/** Whether the figures are shown, or else the form. */
const isShown = (html: string): boolean => {
  expect(html.includes('name="token"')).toBe(!html.includes(ADVICE));
  return html.includes(ADVICE);
};

describe("the operator's page", () => {
  test("asks for the token, and shows nothing else", async () => {
    const reply = await page();
    expect([reply.status, isShown(reply.text)]).toEqual([200, false]);
    expect(reply.text).toContain('<form method="post" action="/operation/session">');
    expect(reply.text).not.toContain(process.versions.node);
    expect(reply.headers["x-robots-tag"]).toBe("noindex");
  });

  test("says so where the token is another one, and sets no cookie", async () => {
    const reply = await typed("another token of somebody");
    expect([reply.status, cookieOf(reply)]).toEqual([401, ""]);
    expect(words(reply.text)).toContain("Not opened. This is not the token of this service.");
    expect(reply.text).not.toContain("another token of somebody");
  });

  test("opens with a cookie for this host alone, in which the token is not", async () => {
    const reply = await typed(OPERATOR_TOKEN);
    expect([reply.status, reply.headers.location]).toEqual([303, "/operation"]);
    const [pair = "", ...flags] = cookieOf(reply).split("; ");
    expect(flags.toSorted()).toEqual([
      ...["HttpOnly", "Max-Age=1800", "Path=/", "SameSite=Strict", "Secure"],
    ]);
    const [name, value = ""] = pair.split("=");
    expect(name).toBe("__Host-operation");
    for (const part of [value, ...value.split(".")]) {
      const plain = Buffer.from(part, "base64url").toString("utf8");
      expect(decodeURIComponent(part) + plain).not.toContain(OPERATOR_TOKEN);
    }
    expect(isShown((await page(pair)).text)).toBe(true);
  });

  test("closes after half an hour, by itself", async () => {
    const cookie = await opened();
    now = minutesLater(29);
    expect(isShown((await page(cookie)).text)).toBe(true);
    now = minutesLater(30);
    expect(isShown((await page(cookie)).text)).toBe(false);
  });

  test("stays closed to a cookie that was made longer, cut or made up", async () => {
    const cookie = await opened();
    const [until, hash] = cookie.split("=")[1]!.split(".");
    const longer = `${Number(until) + 1}.${hash}`;
    for (const value of [longer, `${until}.`, `${until}`, "", ".", `${until}.${hash}x`]) {
      expect(isShown((await page(`__Host-operation=${value}`)).text), value).toBe(false);
    }
    expect(isShown((await page(cookie)).text)).toBe(true);
  });

  test("is closed by another token, and opened by every instance of the same secret", async () => {
    const cookie = await opened();
    const at = (token: string) => {
      const { db, ownerUrl, appUrl } = service;
      const database = { db, ownerUrl, appUrl, drop: async () => undefined };
      const environment = { METRICS_TOKEN: token };
      return startService({ database, firm: service.firm, environment, now: () => now });
    };
    const same = await at(OPERATOR_TOKEN);
    const other = await at("the token that came after it");
    expect(isShown((await operatorAt(() => same.anonymous).page(cookie)).text)).toBe(true);
    expect(isShown((await operatorAt(() => other.anonymous).page(cookie)).text)).toBe(false);
    await Promise.all([same.stop(), other.stop()]);
  });

  test("is closed by signing out", async () => {
    const signOut = service.anonymous.post("/operation/sign-out");
    const reply = await signOut.set("cookie", await opened()).set("sec-fetch-site", "same-origin");
    expect([reply.status, reply.headers.location]).toEqual([303, "/operation"]);
    expect(cookieOf(reply)).toMatch(/^__Host-operation=; .*Expires=Thu, 01 Jan 1970/);
  });

  test("takes no form of another site", async () => {
    const elsewhere = (path: string) =>
      service.anonymous.post(path).type("form").set("sec-fetch-site", "cross-site");
    const session = await elsewhere("/operation/session").send({ token: OPERATOR_TOKEN });
    const signOut = await elsewhere("/operation/sign-out");
    expect([session.status, signOut.status]).toEqual([403, 403]);
    expect(cookieOf(session) + cookieOf(signOut)).toBe("");
  });

  test("shows what the interface tells, with the advice", async () => {
    const { body } = await bearer("/api/v1/operation");
    const reply = await page(await opened());
    const shown = words(reply.text);
    expect(shown).toContain("The service can do its work.");
    const { versions, storage, connections } = body;
    for (const text of [versions.service, versions.node, versions.postgresql]) {
      expect(shown).toContain(text);
    }
    expect(shown).toContain(`Schema of the database ${versions.schemaFound}`);
    expect(shown).toContain(ADVICE);
    expect(shown).toContain(storage.backup.advice);
    for (const { name } of [...storage.database.tables, ...connections]) {
      expect(shown).toContain(name);
    }
  });

  test("speaks the language that the browser asks for, advice and all", async () => {
    const reply = await page(await opened()).set("accept-language", "es-MX, es;q=0.9");
    expect(reply.headers["content-language"]).toBe("es");
    expect(words(reply.text)).toContain("El servicio puede hacer su trabajo.");
    expect(reply.text).toContain("Fije SMTP_URL: sin ella no sale ningún correo.");
  });

  test("is nobody's of a firm: no word of one, no link to one, whoever is signed in", async () => {
    const { owner } = service.firm.people;
    const cookie = `${await opened()}; __Host-access=${owner.token}`;
    const { text } = await page(cookie);
    expect(isShown(text)).toBe(true);
    const hrefs = [...text.matchAll(/<a [^>]*href="([^"]+)"/g)].map(([, href]) => href);
    expect(hrefs.filter((href) => !/^(#|\/operation$)/.test(href!))).toEqual([]);
    const hidden = [service.firm.firmId, "alder", "owner person", OPERATOR_TOKEN];
    for (const word of hidden) expect(text).not.toContain(word);
    // A person's session alone opens nothing here.
    expect(isShown((await page(`__Host-access=${owner.token}`)).text)).toBe(false);
  });

  test("says how to set a token where none is, and takes none", async () => {
    const without = await startService();
    const there = operatorAt(() => without.anonymous);
    const reply = await there.page();
    expect([reply.status, reply.text.includes('name="token"')]).toEqual([200, false]);
    expect(words(reply.text)).toContain("at least 16 characters");
    for (const token of ["", "undefined", OPERATOR_TOKEN]) {
      const refused = await there.typed(token);
      expect([refused.status, cookieOf(refused)]).toEqual([404, ""]);
    }
    await without.stop();
  });
});
