// Everything that opens something is used, well and badly, with the log at its finest and every
// query in it; then the whole log is searched for each (OWASP ASVS 5.0.0, V16.2.5 and V14.2.1).
import { join } from "node:path";
import { TOTP } from "otpauth";
import pg from "pg";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { PASSWORD } from "../support/app.ts";
import { addTriedJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import { type LoggedService, startLoggingAll } from "../support/kept-log.ts";

let stage: EvidenceStage;
let logged: LoggedService;
/** What must not be found, by what it is. */
const secrets = new Map<string, string>();
beforeAll(async () => {
  stage = await startEvidence(() => new Date());
  logged = await startLoggingAll(stage.service, {
    ...{ DATA_DIR: join(stage.folder, "data"), PUBLIC_URL: "https://alder.example" },
    METRICS_TOKEN: secret("metrics token", "a token of the monitoring service"),
  });
});
afterAll(() => logged.stop().then(() => stage.stop()));

function secret(what: string, value: string): string {
  expect(value.length, what).toBeGreaterThanOrEqual(6);
  secrets.set(what, value);
  return value;
}

type Verb = "get" | "post" | "put" | "patch" | "delete";
const as = (person: { token: string }, verb: Verb, path: string) =>
  logged.agent[verb](path).set("authorization", `Bearer ${person.token}`);
const people = () => stage.service.firm.people;
const pathOf = (url: string) => new URL(url).pathname;
const ROOK = { email: "rook@alder.example", name: "Rook", roles: ["installer"] };
const FORM = { "sec-fetch-site": "same-origin", accept: "text/html" };
const form = (path: string, fields: object) =>
  logged.agent.post(path).type("form").set(FORM).send(fields);

/** As it stands, misspelt, escaped and in a query: each is an address that somebody may ask for. */
async function askAround(path: string): Promise<void> {
  const [, place = "", ...rest] = path.split("/");
  const others = [
    ...[path, `${path}/`, `${path}/nothing`, `/${path}`, `/${place.toUpperCase()}/${rest[0]}`],
    ...[`/%${place.charCodeAt(0).toString(16)}${place.slice(1)}/${rest.join("/")}`],
    ...[`/nowhere${path}`, `/sign-in?next=${path}`, `/sign-in?next=${encodeURIComponent(path)}`],
    ...[`/search?q=${path}`, `/search?${path}`, `${path}?again=${path}`, `/%zz${path}`],
  ];
  for (const each of others) {
    for (const verb of ["get", "head", "post"] as const) await logged.agent[verb](each);
  }
}

test("signing in, its cookies and its tokens", async () => {
  const wrong = secret("wrong password", "seventeen wrong horses");
  const email = people().office.email;
  for (const password of [PASSWORD, wrong]) {
    await logged.agent.post("/api/v1/session").send({ email, password });
    await logged.agent.post(`/api/v1/session?password=${encodeURIComponent(password)}`);
    await logged.agent.post("/api/v1/session").type("json").send(`{"password":"${password}`);
    await form("/sign-in", { email, password });
  }
  secret("password", PASSWORD);
  const { body, headers } = await logged.agent
    .post("/api/v1/session")
    .send({ email, password: PASSWORD });
  secret("access token", body.accessToken);
  const cookies = (headers["set-cookie"] as unknown as string[]).map((line) => line.split(";")[0]!);
  for (const cookie of cookies)
    secret(cookie.split("=")[0]!, cookie.slice(cookie.indexOf("=") + 1));
  await logged.agent.get("/today").set("cookie", cookies.join("; "));
  await logged.agent.get("/today").set("cookie", `${cookies[0]}broken`);
  await logged.agent.get(`/today?access_token=${body.accessToken}`);
  await logged.agent.get(`/${body.accessToken}`);
  await logged.agent.post("/api/v1/session/refresh").set("cookie", cookies.join("; "));
  const basic = `Basic ${secret("basic credentials", btoa(`${email}:hop`))}`;
  await logged.agent.get("/api/v1/session").set("authorization", basic);
});

test("passwords that are set, and invitations", async () => {
  const first = secret("first password", "eight tall cedars lean");
  const reset = secret("reset password", "nine slow barges drift");
  const own = secret("own password", "ten brass kettles sing");
  const add = as(people().owner, "post", "/api/v1/people");
  const added = await add.send({ ...ROOK, password: first });
  expect(added.status).toBe(201);
  const put = as(people().owner, "put", `/api/v1/people/${added.body.id}/password`);
  expect((await put.send({ password: reset })).status).toBeLessThan(300);
  const bad = as(people().owner, "put", `/api/v1/people/${added.body.id}/password`);
  await bad.send({ password: reset, more: own });
  const change = as(people().auditor, "put", "/api/v1/people/me/password");
  await change.send({ presentPassword: "not this one at all", password: own });
  await logged.agent
    .post("/people")
    .type("form")
    .set({ ...FORM, cookie: `__Host-access=${people().owner.token}` })
    .send({ name: "Finch", email: "finch@alder.example", roles: "installer" });
  const mail = await inFirm(stage.service.db, stage.service.firm.firmId, (tx) =>
    tx.mail.findFirstOrThrow({ where: { recipient: "finch@alder.example" } }),
  );
  const path = pathOf(/https:\S+/.exec(mail.textBody)![0]);
  secret("invitation", path.split("/").at(-1)!);
  await askAround(path);
  expect((await form(path, { password: "short", language: "en" })).status).toBe(422);
  expect((await form(path, { password: own, language: "en" })).status).toBe(303);
});

test("the second step: its key, its codes and what recovers it", async () => {
  const { manager } = people();
  const begin = as(manager, "post", "/api/v1/people/me/two-step");
  const begun = await begin.send({ presentPassword: PASSWORD });
  const uri = new URL(begun.body.uri);
  const key = secret("second step's key", uri.searchParams.get("secret")!);
  const code = secret("code", new TOTP({ secret: key }).generate());
  const wrong = secret("wrong code", code === "482913" ? "482914" : "482913");
  const confirm = (sent: string) =>
    as(manager, "post", "/api/v1/people/me/two-step/confirmation").send({ code: sent });
  expect((await confirm(wrong)).status).toBeGreaterThanOrEqual(400);
  const done = await confirm(code);
  expect(done.status).toBe(201);
  for (const [at, each] of done.body.recoveryCodes.entries()) secret(`recovery code ${at}`, each);
  const [recovery] = done.body.recoveryCodes;
  for (const sent of [code, wrong, recovery]) {
    const credentials = { email: manager.email, password: PASSWORD, code: sent };
    await logged.agent.post("/api/v1/session").send(credentials);
    await logged.agent.get(`/sign-in/code?code=${sent}`);
  }
  const half = await form("/sign-in", { email: manager.email, password: PASSWORD });
  const token = /name="half" value="([^"]+)"/.exec(half.text)![1]!;
  await form("/sign-in/code", { half: secret("half a sign-in", token), code: wrong });
});

test("keys for programs, secrets of webhooks, the token of the monitoring service", async () => {
  const make = as(people().owner, "post", "/api/v1/api-keys");
  const made = await make.send({ name: "Fleet dashboard", scopes: ["read:fleet"] });
  const key = { token: secret("key", made.body.token) };
  for (const path of ["/api/v1/fleet", "/api/v1/people", `/api/v1/units?q=${key.token}`]) {
    await as(key, "get", path);
  }
  await as({ token: `${key.token}x` }, "get", "/api/v1/fleet");
  await logged.agent.get(`/api/v1/units/${key.token}`);
  const add = (url: string) =>
    as(people().owner, "post", "/api/v1/webhooks").send({ url, kinds: ["firmware.due"] });
  const hook = await add("https://hooks.partner.example/in");
  expect(hook.status).toBe(201);
  secret("webhook's secret", hook.body.secret);
  const again = await as(people().owner, "post", `/api/v1/webhooks/${hook.body.id}/secret`);
  secret("webhook's next secret", again.body.secret);
  const inAddress = secret("key in a webhook's address", "hook-key-5823");
  await add(`http://127.0.0.1/?key=${inAddress}`);
  for (const token of [secrets.get("metrics token")!, "another token"]) {
    await logged.agent.get("/metrics").set("authorization", `Bearer ${token}`);
  }
});

test("links of handover and addresses of calendars", async () => {
  const { job } = await addTriedJob(stage.service, "steady");
  const make = as(people().office, "post", `/api/v1/jobs/${job.jobId}/handover-links`);
  const link = await make.send({});
  expect(link.status).toBe(201);
  const path = pathOf(link.body.url);
  secret("handover link", path.split("/").at(-1)!);
  await askAround(path);
  await askAround(`${path}/handover-pack.pdf`);
  const calendar = await as(people().installer, "post", "/api/v1/calendar-address");
  secret("calendar", pathOf(calendar.body.url).slice("/calendar/".length).replace(".ics", ""));
  await askAround(pathOf(calendar.body.url));
});

test("bodies of uploads and of requests that fail on our side", async () => {
  const inside = secret("text in an upload", "text-of-an-upload-9917");
  const { jobId } = (await addTriedJob(stage.service, "steady")).job;
  await logged.agent
    .post(`/jobs/${jobId}/documents`)
    .set(FORM)
    .set("cookie", `__Host-access=${people().office.token}`)
    .attach("file", Buffer.from(`%PDF-${inside}`), `${inside}.pdf`);
  await as(people().office, "post", "/api/v1/customers").type("json").send(`{"name":"${inside}`);
  await as(people().office, "post", "/api/v1/customers").send({ name: inside, [inside]: 1 });
  const typed = secret("name in a failing request", "Rowena of the failing request");
  const owner = new pg.Client({ connectionString: stage.service.ownerUrl });
  await owner.connect();
  // A check that no route foresees, so that the database refuses the row and tells it whole.
  await owner.query(`ALTER TABLE customer ADD CONSTRAINT unforeseen CHECK (name <> '${typed}')`);
  const failed = await as(people().office, "post", "/api/v1/customers").send({ name: typed });
  await owner.query("ALTER TABLE customer DROP CONSTRAINT unforeseen");
  await owner.end();
  expect(failed.status, failed.text).toBe(500);
});

test("none of it is in the log", () => {
  const text = logged.lines.join("");
  expect(logged.lines.length).toBeGreaterThan(300);
  const seen = ["slow query", "request failed", "/handover/…", "/invitation/…", "/calendar/…"];
  expect(seen.filter((word) => !text.includes(word))).toEqual([]);
  expect(secrets.size).toBeGreaterThan(25);
  const found = [...secrets].filter(([, value]) => text.includes(value)).map(([what]) => what);
  expect(found).toEqual([]);
});
