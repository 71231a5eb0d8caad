// The demo with its auditor held to part of the firm.
import pg from "pg";
import { buildApp } from "../../src/app.ts";
import type { NewAccess } from "../../src/features/audit-access/schemas.ts";
import type { App } from "../../src/web/feature.ts";
import type { Role } from "../../src/web/roles.ts";
import { configIn, DEMO_PASSWORD, type DemoDatabase, loadedDemo } from "./demo.ts";

export interface AuditStage {
  demo: DemoDatabase;
  app: App;
  tokens: Record<Role, string>;
  auditorId: string;
  /** All rows behind the scenes. */
  rows(sql: string, values?: unknown[]): Promise<Record<string, string>[]>;
  /** Gives the auditor this scope; the id of the access. */
  give(scope: NewAccess["scope"], more?: object): Promise<string>;
  get(url: string, role?: Role): Promise<{ status: number; body: string }>;
  end(): Promise<void>;
}

async function tokensOf(
  app: App,
  people: readonly { roles: string[]; email: string }[],
): Promise<Record<Role, string>> {
  const signedIn = async (role: Role): Promise<string> => {
    const email = people.find(({ roles }) => roles.includes(role))?.email;
    const payload = { email, password: DEMO_PASSWORD };
    const reply = await app.inject({ method: "POST", url: "/api/v1/session", payload });
    return reply.json().accessToken;
  };
  return {
    ...{ owner: await signedIn("owner"), office: await signedIn("office") },
    ...{ installer: await signedIn("installer"), manager: await signedIn("manager") },
    auditor: await signedIn("auditor"),
  };
}

export async function auditStage(now: () => Date = () => new Date()): Promise<AuditStage> {
  const demo = await loadedDemo(now());
  const app = await buildApp({
    ...{ db: demo.db, config: configIn(demo.folder), now },
    jwtSecret: "a secret of forty characters for the tests",
  });
  await app.ready();
  const client = new pg.Client({ connectionString: demo.ownerUrl });
  await client.connect();
  const people = await demo.read((tx) => tx.person.findMany({ where: { firmId: tx.firmId } }));
  const tokens = await tokensOf(app, people);
  const auditorId = people.find(({ roles }) => roles.join() === "auditor")?.id ?? "";
  const until = new Date(now().getTime() + 20 * 86_400_000).toISOString().slice(0, 10);
  return {
    ...{ demo, app, tokens, auditorId },
    rows: async (sql, values = []) => (await client.query(sql, values)).rows,
    give: async (scope, more = {}) => {
      const reply = await app.inject({
        ...{ method: "PUT", url: `/api/v1/people/${auditorId}/audit-access` },
        headers: { authorization: `Bearer ${tokens.owner}` },
        payload: { outside: true, until, scope, ...more },
      });
      if (reply.statusCode !== 200) throw new Error(reply.body);
      return reply.json().id;
    },
    get: async (url, role = "auditor") => {
      const headers = { authorization: `Bearer ${tokens[role]}` };
      const reply = await app.inject({ url, headers });
      return { status: reply.statusCode, body: reply.body };
    },
    end: async () => {
      await client.end();
      await app.close();
      await demo.end();
    },
  };
}
