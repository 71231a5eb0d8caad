// Every operation of the interface, asked by each role of one firm for what belongs to another:
// the answer is the same as for an id that nobody ever gave out, and tells nothing of the other
// firm. The second time the code's own scoping is switched off, and row-level security stands
// alone. Routes join by themselves, from the OpenAPI document.
import supertest from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ACCESS } from "../../src/access.ts";
import { buildApp } from "../../src/app.ts";
import { hashPassword } from "../../src/features/session/password.ts";
import type { App } from "../../src/web/feature.ts";
import { ROLES, type Role } from "../../src/web/roles.ts";
import { type Api, describedApi, nounBefore, type Operation } from "../support/api-operations.ts";
import { addTestFirm, PASSWORD, type TestFirm } from "../support/app.ts";
import { type BlindDatabase, blindDatabase } from "../support/blind-database.ts";
import { configIn, DEMO_PASSWORD, type DemoDatabase, loadedDemo } from "../support/demo.ts";
import { type Asked, type Asking, askedOf, guessed, idsByTable } from "../support/foreign-asks.ts";
import { guidsIn, type KnownIds, knownIds } from "../support/known-ids.ts";

const TRIES = 20;
/** Kinds of things that the scenario has none of; tests of their own ask for another firm's. */
const NONE_OF_THESE = new Set([
  ...["changes changeId", "documents sha256", "due-list-records id", "held-operations opId"],
  "evidence evidenceId",
  ...["mails id", "merges mergeId", "photo-uploads sha256", "qualification-requirements id"],
  ...["qualifications id", "ticks tickId", "visit-tellings id"],
]);
let demo: DemoDatabase;
let db: BlindDatabase;
let app: App;
let api: Api;
let own: TestFirm;
let others: KnownIds;
let asking: Asking;
let foreign: Set<string>;

beforeAll(async () => {
  demo = await loadedDemo(new Date());
  db = blindDatabase(demo.db);
  app = await buildApp({ db, config: configIn(demo.folder), jwtSecret: "matrix ".repeat(6) });
  await app.ready();
  api = describedApi(app);
  const hash = await hashPassword(PASSWORD);
  own = await addTestFirm(demo, supertest(app.server), "birch", hash);
  const tokens = await Promise.all(ROLES.map(demoToken));
  others = await knownIds(api, async (url) => {
    for (const token of tokens) {
      const reply = await app.inject({ url, headers: { authorization: `Bearer ${token}` } });
      if (reply.statusCode === 200) return reply.body;
    }
    return undefined;
  });
  asking = { api, known: others.values };
  await addWhatIsMissing(tokens);
  const rows = await idsByTable(demo.ownerUrl, demo.firmId);
  for (const [table, [id]] of rows) {
    const noun = `${table.replace(/^firmware_/, "").replaceAll("_", "-")}s`;
    if (id && !others.values.has(`${noun} id`)) others.values.set(`${noun} id`, [id]);
  }
  foreign = new Set([demo.firmId, ...[...rows.values()].flat()]);
}, 120_000);
afterAll(async () => {
  await app.close();
  await demo.end();
});

async function demoToken(role: Role): Promise<string> {
  const person = await demo.read((tx) =>
    tx.person.findFirstOrThrow({ where: { firmId: tx.firmId, roles: { has: role } } }),
  );
  const payload = { email: person.email, password: DEMO_PASSWORD };
  const reply = await app.inject({ method: "POST", url: "/api/v1/session", payload });
  return reply.json().accessToken;
}

/** Values that stand in no list, and things that the scenario has none of, made as it can be. */
async function addWhatIsMissing(tokens: readonly string[]): Promise<void> {
  const photo = await demo.read((tx) =>
    tx.photo.findFirstOrThrow({ where: { firmId: tx.firmId } }),
  );
  others.values.set("photos sha256", [photo.sha256]);
  others.values.set("packets jobId", others.values.get("jobs id") ?? []);
  others.values.set("failing-addresses customerId", others.values.get("customers id") ?? []);
  for (const operation of api.operations.filter(({ method }) => method === "post")) {
    const noun = operation.path.split("/").at(-1) ?? "";
    if (others.values.has(`${noun} id`)) continue;
    for (let seed = 0; seed < TRIES && !others.values.has(`${noun} id`); seed += 1) {
      const asked = askedOf(asking, operation, seed);
      for (const token of asked ? tokens : []) {
        const reply = await send(operation, token, asked as Asked);
        const { id } = reply.status === 201 ? JSON.parse(reply.body) : { id: undefined };
        if (typeof id === "string") others.values.set(`${noun} id`, [id]);
      }
    }
  }
}

async function send(operation: Operation, token: string, { url, payload }: Asked) {
  const request = {
    ...{ method: operation.method.toUpperCase() as "GET", url },
    headers: {
      authorization: `Bearer ${token}`,
      "if-match": '"1"',
      ...(operation.body ? { "content-type": operation.body.type } : {}),
    },
    ...(payload ? { payload } : operation.body ? { payload: "x" } : {}),
  };
  // A stream that fails under way is cut, which is no answer.
  const reply = await app.inject(request).catch(() => ({ statusCode: 599, body: "" }));
  return { status: reply.statusCode, body: reply.body };
}

const ask = (operation: Operation, role: Role, asked: Asked) =>
  send(operation, own.people[role].token, asked);

/** An answer without what differs from one request to the next. */
const shape = ({ status, body }: { status: number; body: string }): string =>
  `${status} ${body.replace(/"instance":"[^"]*"/, "").replaceAll(/[0-9a-f-]{36}/g, ":id")}`;

/** What its own people have named may be told them again, such as the filter of their export. */
const sent = new Set<string>();
const leaked = (body: string): string[] =>
  guidsIn(body).filter((id) => foreign.has(id) && !sent.has(id));

/** What is asked without naming anything has nothing to compare, and must only tell nothing. */
const namesAnId = ({ url, payload }: Asked) => guidsIn(`${url} ${payload ?? ""}`).length > 0;

async function faultsOf(operation: Operation, role: Role, isBlind: boolean): Promise<string[]> {
  const asked = askedOf(asking, operation);
  if (!asked) return [];
  const what = `${role} ${operation.method} ${asked.url}`;
  db.mistake(isBlind ? own.firmId : undefined, demo.firmId);
  for (const id of guidsIn(`${asked.url} ${asked.payload ?? ""}`)) sent.add(id);
  const reply = await ask(operation, role, asked);
  const faults = leaked(reply.body).map((id) => `${what} tells ${id}`);
  if (!isBlind && namesAnId(asked)) {
    const other = await ask(operation, role, guessed(asked));
    if (shape(reply) !== shape(other)) {
      faults.push(`${what}: ${shape(reply)} but for a guessed id ${shape(other)}`);
    }
    if (reply.status >= 500) faults.push(`${what}: ${reply.status}`);
  }
  db.mistake(undefined);
  return faults;
}

/** Not what is meant for everybody, nor what ends the session that the others are asked with. */
const isOurs = ({ id, path }: Operation): boolean =>
  ACCESS[id] !== "anyone" && !path.startsWith("/api/v1/session");

describe.each([
  ["as the code is", false],
  ["with the code's scoping switched off", true],
])("another firm's, %s", (_what, isBlind) => {
  test.each(ROLES)(
    "is as unknown as a guessed id to the %s",
    { timeout: 120_000 },
    async (role) => {
      const faults: string[] = [];
      for (const operation of api.operations.filter(isOurs)) {
        await app.inject({
          url: "/api/v1/session",
          headers: { authorization: `Bearer ${own.people[role].token}` },
        });
        faults.push(...(await faultsOf(operation, role, isBlind)));
      }
      expect(faults).toEqual([]);
    },
  );
});

test("the other firm's ids are real ones: every path with a parameter has one", () => {
  const nouns = new Set<string>();
  for (const operation of api.operations.filter(isOurs)) {
    const { path, parameters } = operation;
    for (const { name } of parameters.filter((one) => one.in === "path")) {
      const noun = nounBefore(path, name);
      if (!others.values.has(`${noun} ${name}`) && !others.values.has(`${noun} id`)) {
        nouns.add(`${noun} ${name}`);
      }
    }
  }
  expect([...nouns].filter((noun) => !NONE_OF_THESE.has(noun))).toEqual([]);
});
