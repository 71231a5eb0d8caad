import { hash } from "@node-rs/argon2";
import supertest from "supertest";
import { buildApp } from "../../src/app.ts";
import { readConfig } from "../../src/config.ts";
import { foundFirm } from "../../src/features/firms/store.ts";
import { addPerson } from "../../src/features/people/add-person.ts";
import type { App } from "../../src/web/feature.ts";
import { ROLES, type Role } from "../../src/web/roles.ts";
import { type TestDatabase, testDatabase } from "./database.ts";

export const PASSWORD = "correct horse battery";

export interface TestFirm {
  firmId: string;
  people: Record<Role, { id: string; email: string; token: string }>;
}

export interface TestService extends TestDatabase {
  app: App;
  /** A request with the token of that role's person. */
  as(person: { token: string }): Client;
  anonymous: ReturnType<typeof supertest>;
  firm: TestFirm;
  addFirm(name: string): Promise<TestFirm>;
  stop(): Promise<void>;
}

type Verb = "get" | "post" | "patch" | "put" | "delete";
export type Client = Record<Verb, (path: string) => supertest.Test>;

export interface ServiceOptions {
  environment?: Record<string, string>;
  now?: () => Date;
  /** Instead of a fresh one; ended by `stop` like that. */
  database?: TestDatabase;
  /** The firm that is in it already. */
  firm?: TestFirm;
}

/** The real server on a database of its own, with one firm that has a person in each role. */
export async function startService(options: ServiceOptions = {}): Promise<TestService> {
  const database = options.database ?? (await testDatabase());
  const environment = { LOG_LEVEL: "silent", DATA_DIR: ".data/tests", ...options.environment };
  const app = await buildApp({
    db: database.db,
    config: readConfig(environment, ".data/tests"),
    jwtSecret: "a secret of forty characters for the tests",
    ...(options.now ? { now: options.now } : {}),
  });
  await app.ready();
  const anonymous = supertest(app.server);
  const passwordHash = await quickHash();
  const now = options.now ?? (() => new Date());
  const addFirm = (name: string) => addTestFirm(database, anonymous, name, passwordHash, now());
  const firm = options.firm ?? (await addFirm("alder"));
  const as = (person: { token: string }): Client => clientWith(app, person.token);
  const stop = async (): Promise<void> => {
    await app.close();
    await database.drop();
  };
  return { ...database, app, anonymous, as, firm, addFirm, stop };
}

/** A hash bears its sizes: at the least of them, signing in costs tests no time. */
export const quickHash = (): Promise<string> =>
  hash(PASSWORD, { memoryCost: 8, timeCost: 1, parallelism: 1 });

export async function addTestFirm(
  database: TestDatabase,
  anonymous: ReturnType<typeof supertest>,
  name: string,
  passwordHash: string,
  now: Date = new Date(),
): Promise<TestFirm> {
  const firm = { name, timeZone: "Europe/London", unitSystem: "metric" as const };
  const { firmId, result } = await foundFirm(database.db, firm, async (tx) => {
    const rows = [];
    for (const role of ROLES) {
      const email = `${role}@${name}.example`;
      const person = { email, name: `${role} person`, roles: [role], passwordHash };
      rows.push(await addPerson(tx, person, { now }));
    }
    return rows;
  });
  const signedIn = ROLES.map(async (role, index) => {
    const { id, email } = result[index]!;
    const reply = await anonymous.post("/api/v1/session").send({ email, password: PASSWORD });
    return [role, { id, email, token: reply.body.accessToken as string }] as const;
  });
  const people = Object.fromEntries(await Promise.all(signedIn)) as TestFirm["people"];
  return { firmId, people };
}

function clientWith(app: App, token: string): Client {
  const send = (verb: Verb) => (path: string) =>
    supertest(app.server)[verb](path).set("authorization", `Bearer ${token}`);
  return {
    get: send("get"),
    post: send("post"),
    patch: send("patch"),
    put: send("put"),
    delete: send("delete"),
  };
}
