// Requests made up from the OpenAPI document, by each role, with ids that are there and others:
// none fails on our side, none is answered with a status that the document does not name, and no
// answer shows how the service is built. FUZZ_REQUESTS and FUZZ_SEED choose how many and which.
import fc from "fast-check";
import { afterAll, beforeAll, expect, test } from "vitest";
import { buildApp } from "../../src/app.ts";
import type { FirmTransaction } from "../../src/db/scope.ts";
import { giveAccess } from "../../src/features/audit-access/give-access.ts";
import { noteSuccess } from "../../src/features/session/throttle.ts";
import type { App } from "../../src/web/feature.ts";
import { ROLES, type Role } from "../../src/web/roles.ts";
import { type Api, describedApi, type Operation } from "../support/api-operations.ts";
import { configIn, DEMO_PASSWORD, type DemoDatabase, loadedDemo } from "../support/demo.ts";
import { filled, type KnownIds, knownIds } from "../support/known-ids.ts";
import { type Making, valuesOf } from "../support/schema-values.ts";

const REQUESTS = Number(process.env.FUZZ_REQUESTS ?? 2000);
const SEED = Number(process.env.FUZZ_SEED ?? 20261126);
/** A request takes some milliseconds; a hundred leaves room for a slow machine. */
const TIME_LIMIT = 300_000 + REQUESTS * 100;
let demo: DemoDatabase;
let app: App;
let api: Api;
let known: KnownIds;
const tokens = new Map<Role, string>();
const people = new Map<Role, Awaited<ReturnType<typeof firstOf>>>();

beforeAll(async () => {
  demo = await loadedDemo(new Date());
  app = await buildApp({
    ...{ db: demo.db, config: configIn(demo.folder), jwtSecret: "made up ".repeat(6) },
  });
  await app.ready();
  api = describedApi(app);
  for (const role of ROLES) tokens.set(role, await signIn(role));
  known = await knownIds(api, async (url) => {
    const headers = { authorization: `Bearer ${tokens.get("owner")}` };
    const reply = await app.inject({ url, headers });
    return reply.statusCode === 200 ? reply.body : undefined;
  });
}, 120_000);
afterAll(async () => {
  await app.close();
  await demo.end();
});

/** The demo's person of a role, as they were, whatever made-up requests made of them since. */
const person = async (role: Role) => {
  const found = people.get(role) ?? (await demo.read((tx) => firstOf(tx, role)));
  people.set(role, found);
  const { id, email, name, passwordHash } = found;
  const data = { roles: [role], active: true, email, name, passwordHash, totpConfirmedAt: null };
  await demo.read((tx) => tx.person.updateMany({ where: { firmId: tx.firmId, id }, data }));
  if (role === "auditor" && people.has("owner")) {
    const giver = { personId: people.get("owner")!.id, now: new Date() };
    await demo.read((tx) => giveAccess(tx, id, { outside: false, scope: {} }, giver));
  }
  // They guess passwords too, which must not shut out who sends the next ones.
  await noteSuccess(demo.db, email);
  return found;
};

const firstOf = (tx: FirmTransaction, role: Role) =>
  tx.person.findFirstOrThrow({
    where: { firmId: tx.firmId, roles: { has: role } },
    orderBy: { id: "asc" },
  });

async function signIn(role: Role): Promise<string> {
  const payload = { email: (await person(role)).email, password: DEMO_PASSWORD };
  const remoteAddress = "192.0.2.1";
  const reply = await app.inject({
    method: "POST",
    url: "/api/v1/session",
    payload,
    remoteAddress,
  });
  const { accessToken } = reply.json();
  if (!accessToken) throw new Error(`${role} cannot sign in: ${reply.body}`);
  return accessToken;
}

/** What ends a session, or slows everybody down, is left to tests of its own. */
const isOurs = ({ path, id }: Operation): boolean =>
  path.startsWith("/api/v1/") && !path.includes("/session") && !/Password|Invitation/.test(id);

const ids = () => [...known.values].flatMap(([key, all]) => (key.endsWith(" id") ? all : []));

/** A body that its schema allows, another one, or one that nobody can read. */
function payloadFor({ body }: Operation, making: Making): fc.Arbitrary<string | undefined> {
  if (!body) return fc.constant(undefined);
  const asText = (values: fc.Arbitrary<unknown>) => values.map((value) => JSON.stringify(value));
  return fc.oneof(
    { arbitrary: asText(valuesOf(body.schema, making)), weight: 5 },
    { arbitrary: asText(fc.jsonValue({ maxDepth: 3 })), weight: 1 },
    { arbitrary: fc.string(), weight: 1 },
  );
}

function requestFor(operation: Operation) {
  const making: Making = {
    shared: api.shared,
    idFor: () => fc.oneof(fc.constantFrom(...ids()), fc.uuid()),
  };
  const paths = filled(operation, known.values, 5);
  const parts = operation.parameters.map(({ name, in: where, schema }) => ({
    ...{ name, where, value: valuesOf(schema, making, name) },
  }));
  const inPath = parts.filter(({ where }) => where === "path");
  const made = fc
    .tuple(...inPath.map(({ value }) => value))
    .map((values) =>
      inPath.reduce(
        (path, { name }, at) => path.replace(`{${name}}`, encodeURIComponent(String(values[at]))),
        operation.path,
      ),
    );
  const query = fc.record(
    Object.fromEntries(
      parts.filter(({ where }) => where === "query").map(({ name, value }) => [name, value]),
    ),
    { requiredKeys: [] },
  );
  return fc.record({
    path: paths.length > 0 ? fc.oneof(fc.constantFrom(...paths), made) : made,
    ...{ query, payload: payloadFor(operation, making), role: fc.constantFrom(...ROLES) },
    version: fc.option(fc.integer({ min: 1, max: 4 }), { nil: undefined }),
  });
}

type Asked = ReturnType<typeof requestFor> extends fc.Arbitrary<infer T> ? T : never;

async function answerTo(operation: Operation, asked: Asked) {
  const { path, query, payload, role, version } = asked;
  const search = new URLSearchParams(
    Object.entries(query).map(([name, value]): [string, string] => [name, String(value)]),
  );
  const url = `${path}${search.size > 0 ? `?${search}` : ""}`;
  const headers = {
    authorization: `Bearer ${tokens.get(role)}`,
    ...(operation.body ? { "content-type": operation.body.type } : {}),
    ...(version === undefined ? {} : { "if-match": `"${version}"` }),
  };
  const reply = await app
    .inject({
      ...{ method: operation.method.toUpperCase() as "GET", url, headers },
      ...(payload === undefined ? {} : { payload }),
    })
    .catch((error: Error) => ({ statusCode: 599, body: error.message }));
  return { url, status: reply.statusCode, body: reply.body };
}

/** Whether an answer is a fault. Its body was held against its schema by the service itself. */
function isFault(operation: Operation, status: number, body: string): boolean {
  const isTold = status in operation.responses || `${status}` in operation.responses;
  const shows = /node_modules|\n {4}at |prisma\.|SELECT |\/src\//.test(body.slice(0, 4000));
  return status >= 500 || !isTold || (shows && status >= 400);
}

test(
  `of ${REQUESTS} made-up requests none fails on our side`,
  async () => {
    const operations = api.operations.filter(isOurs);
    const each = Math.ceil(REQUESTS / operations.length);
    const faults: string[] = [];
    const answered: Record<number, number> = {};
    let sent = 0;
    for (const operation of operations) {
      const samples = fc.sample(requestFor(operation), { numRuns: each, seed: SEED });
      for (const asked of samples) {
        const { url, status, body } = await answerTo(operation, asked);
        sent += 1;
        answered[status] = (answered[status] ?? 0) + 1;
        // Some requests end the sessions of others, who then sign in again.
        if (/Sign in first\.|"\/problems\/access-ended"/.test(body))
          tokens.set(asked.role, await signIn(asked.role));
        if (isFault(operation, status, body)) {
          const what = `${asked.role} ${operation.method} ${url} ${asked.payload?.slice(0, 300)}`;
          faults.push(`${what} → ${status} ${body.slice(0, 200)}`);
        }
      }
    }
    const tally = JSON.stringify(answered);
    process.stdout.write(`made-up requests: ${sent}, answered ${tally} (FUZZ_SEED=${SEED})\n`);
    expect(faults).toEqual([]);
    expect(sent).toBeGreaterThanOrEqual(REQUESTS);
  },
  TIME_LIMIT,
);
