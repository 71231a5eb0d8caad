// What the log tells after an incident, and what it never holds (OWASP ASVS 5.0.0, chapter V16).
import { afterAll, beforeAll, expect, test } from "vitest";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { type LoggedService, startLogged } from "../support/kept-log.ts";

let service: TestService;
let logged: LoggedService;
beforeAll(async () => {
  service = await startService();
  logged = await startLogged(service);
});
afterAll(async () => {
  await logged.app.close();
  await service.stop();
});

const last = (msg: string) => logged.entries().findLast((entry) => entry.msg === msg);
const signIn = (password: string) =>
  logged.agent.post("/api/v1/session").send({ email: "office@alder.example", password });
const as = ({ token }: { token: string }) => ({ authorization: `Bearer ${token}` });

test("signing in is logged with who, when and from where", async () => {
  const before = Date.now();
  const reply = await signIn(PASSWORD);
  expect(reply.status).toBe(201);
  const entry = last("signed in");
  expect(entry).toMatchObject({
    ...{ personId: reply.body.person.personId, firmId: service.firm.firmId },
    ...{ ip: expect.any(String), sessionId: expect.any(String), reqId: expect.any(String) },
  });
  expect(Number(entry?.time)).toBeGreaterThanOrEqual(before);
  await logged.agent.delete("/api/v1/session").set(as({ token: reply.body.accessToken }));
  expect(last("signed out")).toMatchObject({ personId: reply.body.person.personId });

  expect((await signIn("a wrong pass phrase")).status).toBe(401);
  expect(last("refused")).toMatchObject({ problem: "sign-in-refused", ip: expect.any(String) });
  const form = await logged.agent
    .post("/sign-in")
    .set("sec-fetch-site", "same-origin")
    .type("form")
    .send({ email: "somebody@alder.example", password: "wrong" });
  expect(form.status).toBe(401);
  expect(logged.entries().filter(({ problem }) => problem === "sign-in-refused")).toHaveLength(2);
});

test("a refusal for lack of a role is logged with who asked for what", async () => {
  const { id, token } = service.firm.people.auditor;
  const reply = await logged.agent.post("/api/v1/people").set(as({ token })).send({});
  expect(reply.status).toBe(403);
  const refused = last("refused");
  expect(refused).toMatchObject({ problem: "not-allowed", personId: id });
  const asked = logged.entries().find(({ reqId, req }) => req && reqId === refused?.reqId);
  expect(asked?.req).toMatchObject({ method: "POST", url: "/api/v1/people" });
});

test("bad input, another site's request and too many tries are logged", async () => {
  const { token } = service.firm.people.owner;
  await logged.agent.post("/api/v1/people").set(as({ token })).send({ nonsense: true });
  expect(last("refused")).toMatchObject({ problem: "invalid-input" });
  await logged.agent.post("/sign-in").set("sec-fetch-site", "cross-site").type("form").send({});
  expect(last("refused")).toMatchObject({ problem: "cross-site" });
  for (let tries = 0; tries < 9; tries += 1) {
    await logged.agent.post("/api/v1/session").send({ email: "a@b.example", password: "guess" });
  }
  expect(last("refused")).toMatchObject({ problem: "too-many-sign-ins" });
});

test("an error that nobody foresaw is logged whole and told in general", async () => {
  const { token } = service.firm.people.office;
  const prisma = service.db.prisma as unknown as Record<string, unknown>;
  const before = prisma.$transaction;
  // No part of the service can be made to fail by a request; a lost method of the client stands in.
  prisma.$transaction = () => {
    throw new Error("the inside of the inside");
  };
  try {
    const reply = await logged.agent.get("/api/v1/customers").set(as({ token }));
    expect([reply.status, reply.body.type]).toEqual([500, "/problems/internal"]);
    expect(JSON.stringify(reply.body)).not.toContain("inside");
  } finally {
    prisma.$transaction = before;
  }
  expect(JSON.stringify(last("request failed"))).toContain("the inside of the inside");
});

test("holds neither password, nor token, nor cookie, nor address of a link", async () => {
  const reply = await signIn(PASSWORD);
  const cookies = (reply.headers["set-cookie"] as unknown as string[]).map(
    (line) => line.split(";")[0]!,
  );
  await logged.agent.get("/today").set("cookie", cookies.join("; "));
  const secret = "s".repeat(43);
  const id = "01890a5d-ac96-774b-bcce-b302099a8057";
  for (const kind of ["invitation", "handover"]) {
    await logged.agent.get(`/${kind}/${id}/${id}/${secret}`);
  }
  await logged.agent.get(`/calendar/${secret}.ics`);
  const text = logged.lines.join("");
  const values = cookies.map((cookie) => cookie.slice(cookie.indexOf("=") + 1));
  for (const hidden of [PASSWORD, "a wrong pass phrase", ...values, secret]) {
    expect(text).not.toContain(hidden);
  }
  expect(text).toContain("/invitation/…");
});

test("what is typed cannot begin a line of its own", async () => {
  const count = logged.lines.length;
  await logged.agent.get('/nowhere%0A{"level":30,"msg":"signed%20in"}');
  await logged.agent.get("/nowhere").set("user-agent", "a\tb").set("host", "evil.example");
  const added = logged.lines.slice(count);
  expect(added.length).toBeGreaterThan(0);
  for (const line of added) {
    expect(line.indexOf("\n")).toBe(line.length - 1);
    expect(JSON.parse(line).msg).not.toBe("signed in");
  }
});
