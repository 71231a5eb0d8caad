import supertest from "supertest";
import { afterAll, beforeAll, expect, test } from "vitest";
import { buildApp } from "../../src/app.ts";
import { readConfig } from "../../src/config.ts";
import { setupCodeOf } from "../../src/features/first-run/setup-code.ts";
import type { App } from "../../src/web/feature.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";

const SECRET = "a secret of forty characters for the tests";
const CODE = setupCodeOf(SECRET);
const FIRM = {
  setupCode: CODE,
  firmName: "Larch and Vane",
  timeZone: "Europe/London",
  unitSystem: "metric",
  language: "es",
  ownerName: "Ines Larch",
  email: "ines@larch.example",
  password: "quiet lanterns drift",
};

let database: TestDatabase;
let app: App;
let browser: ReturnType<typeof supertest.agent>;

beforeAll(async () => {
  database = await testDatabase();
  app = await buildApp({
    db: database.db,
    config: readConfig({ LOG_LEVEL: "silent", DATA_DIR: ".data/tests" }, ".data/tests"),
    jwtSecret: SECRET,
  });
  await app.ready();
  browser = supertest.agent(app.server);
});
afterAll(async () => {
  await app.close();
  await database.drop();
});

const html = (path: string) => browser.get(path).set("accept", "text/html").set(cookies());
const post = (path: string, form: object) =>
  browser
    .post(path)
    .type("form")
    .set({ accept: "text/html", "sec-fetch-site": "same-origin", ...cookies() })
    .send(form);

/** __Host- cookies are for TLS; the agent talks plainly, so they are carried by hand. */
let jar: Record<string, string> = {};
const cookies = () => ({
  cookie: Object.entries(jar)
    .map(([name, value]) => `${name}=${value}`)
    .join("; "),
});
const keep = (reply: supertest.Response): void => {
  for (const line of (reply.get("set-cookie") ?? []) as string[]) {
    const [, name = "", value = ""] = /^([^=]+)=([^;]*)/.exec(line) ?? [];
    jar = { ...jar, [name]: value };
  }
};

test("an installation without a firm leads to its founding", async () => {
  const signIn = await html("/sign-in");
  expect([signIn.status, signIn.headers.location]).toEqual([303, "/start"]);
  const start = await html("/start");
  expect(start.status).toBe(200);
  expect(start.text).toContain('name="setupCode"');
});

test.each([
  ["another code", { setupCode: "AAAAAAAAAAAA" }, "is not what the service printed"],
  ["a zone that is none", { timeZone: "Europe/Nowhere" }, "must be a time zone"],
  ["a short password", { password: "short" }, "at least 12 characters"],
])("%s is told at its field, and the rest stays typed", async (_what, change, told) => {
  const reply = await post("/start", { ...FIRM, ...change });
  expect(reply.status).toBe(422);
  expect(reply.text).toContain(told);
  expect(reply.text).toContain('value="Larch and Vane"');
  expect(reply.text).not.toContain(FIRM.password);
});

test("the code founds the firm once, signs the owner in and shows the first steps", async () => {
  const spaced = `${CODE.slice(0, 4)} ${CODE.slice(4).toLowerCase()}`;
  const reply = await post("/start", { ...FIRM, setupCode: spaced });
  expect([reply.status, reply.headers.location]).toEqual([303, "/begin"]);
  keep(reply);
  const begin = await html("/begin");
  expect(begin.status).toBe(200);
  expect(begin.text).toContain('<html lang="es">');
  expect(begin.text.match(/class="button/g)).toHaveLength(9);
  const again = await post("/start", { ...FIRM, email: "other@larch.example" });
  expect([again.status, again.headers.location]).toEqual([303, "/sign-in"]);
});

test("two who send the code at the same moment found one firm", async () => {
  const other = await testDatabase();
  const twin = await buildApp({
    db: other.db,
    config: readConfig({ LOG_LEVEL: "silent", DATA_DIR: ".data/tests" }, ".data/tests"),
    jwtSecret: SECRET,
  });
  await twin.ready();
  const send = (email: string) =>
    supertest(twin.server)
      .post("/start")
      .type("form")
      .send({ ...FIRM, email });
  const replies = await Promise.all([send("a@larch.example"), send("b@larch.example")]);
  const founded = replies.filter(({ headers }) => headers.location === "/begin");
  expect(founded).toHaveLength(1);
  await twin.close();
  await other.drop();
});

test("a model and a crew are made by their forms, and the steps count down", async () => {
  const model = {
    code: "FERN-5",
    kind: "battery-pack",
    name: "Fern 5 pack",
    maker: "Fernhollow Storage",
    serialMask: "FH#{8}",
    serialCheck: "none",
    firmwareScheme: "semver",
  };
  const wrong = await post("/product-models", { ...model, attributes: "terminalTorqueNm 8.6" });
  expect(wrong.status).toBe(422);
  expect(wrong.text).toContain("la línea 1 no tiene la forma nombre &#x3D; valor");
  expect(wrong.text).toContain("terminalTorqueNm 8.6</textarea>");
  const right = await post("/product-models", {
    ...model,
    attributes: "terminalTorqueNm = 8.6\nhasHeater = true\n",
  });
  expect(right.status).toBe(303);
  const twice = await post("/product-models", model);
  expect(twice.status).toBe(422);
  expect(twice.text).toContain("Ya hay un modelo FERN-5.");
  const list = await html("/product-models");
  const id = /\/product-models\/([0-9a-f-]{36})/.exec(list.text)?.[1];
  const form = await html(`/product-models/${id}`);
  expect(form.text).toMatch(/>hasHeater &#x3D; true\nterminalTorqueNm &#x3D; 8.6<\/textarea>/);
  const crew = await post("/crews", { name: "Brook crew" });
  expect(crew.status).toBe(303);
  expect((await html("/crews")).text).toContain("Brook crew");
  expect((await html("/begin")).text.match(/✓/g)).toHaveLength(1);
});
