// Tokens, secrets and sealed bytes, each tried in the ways in which they are forged or misused
// (RFC 8725, JSON Web Token Best Current Practices; OWASP ASVS 5.0.0, chapters V7, V9 and V11).
import { createHmac, randomUUID } from "node:crypto";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { TOTP } from "otpauth";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { sealKey, unsealKey } from "../../src/features/evidence/sealed-key.ts";
import { hashPassword } from "../../src/features/session/password.ts";
import { readSecrets } from "../../src/secrets.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { addPerson, NEW_PASSWORD, signIn, tokenOf } from "../support/people.ts";
import { readProjectFiles } from "../tidy/project-files.ts";

let service: TestService;
const folder = mkdtempSync(join(tmpdir(), "holdpoint-tokens-"));
beforeAll(async () => {
  service = await startService();
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true });
});

const part = (value: object) => Buffer.from(JSON.stringify(value)).toString("base64url");
const claimsOf = (token: string) =>
  JSON.parse(Buffer.from(token.split(".")[1]!, "base64url").toString("utf8"));

interface Forgery {
  head?: object;
  claims?: object;
  hash?: string;
  key?: string;
}

/** The owner's own token, made again with what is different. */
function forged({ head = {}, claims = {}, hash = "sha256", key }: Forgery): string {
  const from = { alg: "HS256", typ: "JWT", ...head };
  const body = { ...claimsOf(service.firm.people.owner.token), ...claims };
  const text = `${part(from)}.${part(body)}`;
  const secret = key ?? "a secret of forty characters for the tests";
  return `${text}.${createHmac(hash, secret).update(text).digest("base64url")}`;
}
const statusOf = async (token: string) =>
  (await service.as({ token }).get("/api/v1/session")).status;

describe("tokens", () => {
  test("a token past its time is none", async () => {
    const nowS = Math.floor(Date.now() / 1000);
    expect(await statusOf(forged({}))).toBe(200);
    expect(await statusOf(forged({ claims: { iat: nowS - 901, exp: nowS - 1 } }))).toBe(401);
    expect(await statusOf(forged({ claims: { nbf: nowS + 600 } }))).toBe(401);
  });

  test("a token signed another way is none, though the key be right", async () => {
    expect(await statusOf(forged({ head: { alg: "HS512" }, hash: "sha512" }))).toBe(401);
    expect(await statusOf(forged({ head: { alg: "HS384" }, hash: "sha384" }))).toBe(401);
  });

  test("a token that brings its own key is none", async () => {
    const key = "a key of whoever made this token up";
    const jwk = { kty: "oct", k: Buffer.from(key).toString("base64url") };
    expect(await statusOf(forged({ head: { jwk }, key }))).toBe(401);
    expect(await statusOf(forged({ head: { jku: "https://evil.example/keys" }, key }))).toBe(401);
  });

  test("half a sign-in is no session", async () => {
    const { email } = service.firm.people.owner;
    expect(await statusOf(service.app.jwt.sign({ half: email }, { expiresIn: 300 }))).toBe(401);
  });

  test("refresh secrets are 256 bits, and no two alike", async () => {
    const { email } = service.firm.people.office;
    const opened = [];
    for (let time = 0; time < 3; time += 1) opened.push(await signIn(service, email, PASSWORD));
    const secrets = opened.map(({ body }) => String(body.refreshToken).split(".")[2]!);
    for (const secret of secrets) expect(Buffer.from(secret, "base64url")).toHaveLength(32);
    expect(new Set(secrets).size).toBe(3);
    expect(new Set(opened.map(({ body }) => claimsOf(body.accessToken).sid)).size).toBe(3);
  });
});

const begin = (as: { token: string }, presentPassword: string) =>
  service.as(as).post("/api/v1/people/me/two-step").send({ presentPassword });
const shownBy = (uri: string) =>
  new TOTP({ secret: new URL(uri).searchParams.get("secret")! }).generate();

describe("the second step", () => {
  test("beginning a second step takes the present password", async () => {
    const { token } = service.firm.people.installer;
    const wrong = await begin({ token }, "not the present one");
    expect([wrong.status, wrong.body.errors[0].pointer]).toEqual([422, "/body/presentPassword"]);
    expect((await begin({ token }, PASSWORD)).status).toBe(201);
  });

  test("a second step that is set up ends the other sessions", async () => {
    const { id, email } = await addPerson(service);
    const [here, elsewhere] = [await tokenOf(service, email), await tokenOf(service, email)];
    const begun = await begin(here, NEW_PASSWORD);
    const confirmed = await service
      .as(here)
      .post("/api/v1/people/me/two-step/confirmation")
      .send({ code: shownBy(begun.body.uri) });
    expect(confirmed.status).toBe(201);
    expect([await statusOf(here.token), await statusOf(elsewhere.token)]).toEqual([200, 401]);
    for (const code of confirmed.body.recoveryCodes as string[]) {
      // 28 signs of 32, five bits each: more than the 112 from which a quick hash will do.
      expect(code.replaceAll("-", "")).toMatch(/^[0-9a-hjkmnp-tv-z]{28}$/);
    }
    await reset(id);
    expect((await signIn(service, email, "a phrase that an officer set")).body.type).toBe(
      "/problems/second-step-needed",
    );
  });

  test("a password set anew by an owner leaves the second step on", async () => {
    const { id, email } = await addPerson(service);
    const here = await tokenOf(service, email);
    const begun = await begin(here, NEW_PASSWORD);
    await service
      .as(here)
      .post("/api/v1/people/me/two-step/confirmation")
      .send({ code: shownBy(begun.body.uri) });
    await reset(id);
    const opened = await signIn(service, email, "a phrase that an officer set");
    expect([opened.status, opened.body.type]).toEqual([401, "/problems/second-step-needed"]);
  });

  async function reset(id: string): Promise<void> {
    const reply = await service
      .as(service.firm.people.owner)
      .put(`/api/v1/people/${id}/password`)
      .send({ password: "a phrase that an officer set" });
    expect(reply.status).toBe(204);
  }
});

test("every page of the menu offers to sign out", async () => {
  const { token } = service.firm.people.owner;
  const links = service.app.navigation.map(({ href }) => href);
  expect(links.length).toBeGreaterThan(10);
  for (const href of links) {
    const page = await service.as({ token }).get(href).set("accept", "text/html");
    expect([href, page.status]).toEqual([href, 200]);
    expect(page.text).toContain('action="/sign-out"');
  }
});

describe("what is kept secret", () => {
  test("passwords are kept as argon2id of 19 MiB and two passes", async () => {
    expect(await hashPassword("a phrase of four words")).toMatch(
      /^\$argon2id\$v=19\$m=19456,t=2,p=1\$/,
    );
  });

  test("what is sealed cannot be changed unnoticed, nor opened for another purpose", () => {
    const id = randomUUID();
    const sealed = sealKey(folder, id, Buffer.from("a private key"));
    expect(unsealKey(folder, id, sealed)?.toString()).toBe("a private key");
    expect(sealed.includes("a private key")).toBe(false);
    expect(unsealKey(folder, randomUUID(), sealed)).toBeUndefined();
    for (let place = 0; place < sealed.length; place += 1) {
      const changed = Buffer.from(sealed);
      changed[place] = changed[place]! ^ 1;
      expect(unsealKey(folder, id, changed)).toBeUndefined();
    }
  });

  test.skipIf(process.platform === "win32")("the file of secrets is its owner's alone", () => {
    readSecrets(folder);
    expect(statSync(join(folder, "secrets.json")).mode & 0o777).toBe(0o600);
    sealKey(folder, "made", Buffer.from("x"));
    expect(statSync(join(folder, "evidence-secret")).mode & 0o777).toBe(0o600);
  });
});

describe("the source", () => {
  const served = readProjectFiles(dirname(dirname(import.meta.dirname))).filter(({ path }) =>
    /^src\/(?!demo\/|walkthrough\/|tablet\/|db\/generated\/).*\.ts$/.test(path),
  );
  const naming = (pattern: RegExp) =>
    served.filter(({ text }) => pattern.test(text)).map(({ path }) => path);

  test("no weak hash or cipher is named anywhere in the source", () => {
    expect(served.length).toBeGreaterThan(500);
    const weak = /["'`](?:md5|md4|sha-?1|ripemd160|rc4|des|des-ede3|aes-\d+-(?:ecb|cbc))["'`]/i;
    // Where a standard leaves no choice: authenticators speak HMAC with SHA-1 (RFC 6238), which its
    // weakness does not touch, and others' time stamps may name a certificate by it (RFC 2634).
    expect(naming(weak)).toEqual([
      "src/features/two-step/codes.ts",
      "src/verify/signing-certificate.ts",
    ]);
  });

  test("no chance but that of the secure generator is used on the server", () => {
    expect(naming(/Math\.random\(/)).toEqual([]);
  });
});
