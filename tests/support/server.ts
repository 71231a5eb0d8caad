// One server a test run: an embedded one, or the one that TEST_DATABASE_URL names. Each test file
// gets its own database, cloned from a migrated template.
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import type { TestProject } from "vitest/node";
import { startCluster } from "../../src/db/embedded/cluster.ts";
import { migrate } from "../../src/db/migrate.ts";

export const TEMPLATE = "holdpoint_template";

declare module "vitest" {
  export interface ProvidedContext {
    serverUrl: string;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const given = process.env.TEST_DATABASE_URL;
  const folder = mkdtempSync(join(tmpdir(), "holdpoint-test-"));
  // Under root the server runs as another account, which must be able to enter.
  chmodSync(folder, 0o711);
  // Tests ask for the outcome, not for survival of a power cut; the durable settings have tests of
  // their own.
  const settings = ["fsync=off", "synchronous_commit=off", "full_page_writes=off"];
  const cluster = given
    ? undefined
    : await startCluster({ folder, superuserPassword: "test", settings });
  const serverUrl = (cluster?.superuserUrl ?? given ?? "").replace(/\/[^/]*$/, (end) =>
    end.includes("@") ? end : "",
  );
  const client = new pg.Client({ connectionString: `${serverUrl}/postgres` });
  await client.connect();
  await client.query(`DROP DATABASE IF EXISTS ${TEMPLATE}`);
  await client.query(`CREATE DATABASE ${TEMPLATE}`);
  await migrate(`${serverUrl}/${TEMPLATE}`);
  // Other sessions must be able to clone it, and nothing may connect to it meanwhile.
  await client.query(`ALTER DATABASE ${TEMPLATE} WITH IS_TEMPLATE true ALLOW_CONNECTIONS false`);
  await client.query("ALTER ROLE holdpoint_app LOGIN PASSWORD 'test'");
  await client.end();
  project.provide("serverUrl", serverUrl);
  return async () => {
    await dropTemplate(serverUrl);
    await cluster?.stop();
    rmSync(folder, { recursive: true, force: true });
  };
}

async function dropTemplate(serverUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: `${serverUrl}/postgres` });
  await client.connect();
  await client.query(`ALTER DATABASE ${TEMPLATE} WITH IS_TEMPLATE false`);
  await client.query(`DROP DATABASE ${TEMPLATE}`);
  await client.end();
}
