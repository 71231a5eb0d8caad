import { randomBytes } from "node:crypto";
import pg from "pg";
import { inject } from "vitest";
import { connect, type Database } from "../../src/db/client.ts";
import { TEMPLATE } from "./server.ts";

export interface TestDatabase {
  db: Database;
  /** The superuser's address: for looking behind the scenes. */
  ownerUrl: string;
  /** The application role's address: for trying what it must not be able to do. */
  appUrl: string;
  drop(): Promise<void>;
}

/** A fresh migrated database of the caller's own. */
export async function testDatabase(): Promise<TestDatabase> {
  const serverUrl = inject("serverUrl");
  const name = `holdpoint_${randomBytes(6).toString("hex")}`;
  // Copied as files: written into the log as well, it takes two to three times as long.
  await asSuperuser(serverUrl, `CREATE DATABASE ${name} TEMPLATE ${TEMPLATE} STRATEGY FILE_COPY`);
  const ownerUrl = `${serverUrl}/${name}`;
  const url = new URL(ownerUrl);
  url.username = "holdpoint_app";
  url.password = "test";
  const appUrl = url.toString();
  const db = connectAsAsked(appUrl);
  const drop = async (): Promise<void> => {
    await db.close();
    await asSuperuser(serverUrl, `DROP DATABASE ${name} WITH (FORCE)`);
  };
  return { db, ownerUrl, appUrl, drop };
}

/** Straight to the server, or through the pooler whose port TEST_POOLER_PORT names. */
function connectAsAsked(appUrl: string): Database {
  const port = process.env.TEST_POOLER_PORT;
  if (!port) return connect({ url: appUrl, poolSize: 8 });
  const url = new URL(appUrl);
  url.port = port;
  return connect({ url: url.toString(), poolSize: 8, pooled: true });
}

async function asSuperuser(serverUrl: string, sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: `${serverUrl}/postgres` });
  await client.connect();
  await client.query(sql);
  await client.end();
}
