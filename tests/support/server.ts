// One server a test run: an embedded one, or the one that TEST_DATABASE_URL names. Each test file
// gets its own database, cloned from a migrated template.
import { chmodSync, mkdtempSync, readdirSync, rmSync, statfsSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import type { TestProject } from "vitest/node";
import { startCluster } from "../../src/db/embedded/cluster.ts";
import { migrate } from "../../src/db/migrate.ts";

const SHARED_MEMORY = "/dev/shm";
const ROOM_BYTES = 4 * 1024 ** 3;
const DAY_MS = 24 * 60 * 60 * 1000;
export const TEMPLATE = "holdpoint_template";

declare module "vitest" {
  export interface ProvidedContext {
    serverUrl: string;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const given = process.env.TEST_DATABASE_URL;
  const folder = mkdtempSync(join(roomyMemory() ?? tmpdir(), "holdpoint-test-"));
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

/** Hundreds of databases of a thousand files each come and go: in memory at half the price. */
function roomyMemory(): string | undefined {
  try {
    forgetOldRuns();
    const { bavail, bsize } = statfsSync(SHARED_MEMORY);
    return bavail * bsize > ROOM_BYTES ? SHARED_MEMORY : undefined;
  } catch {
    return undefined;
  }
}

/** What a run that was killed left there, a day ago or more. */
function forgetOldRuns(): void {
  for (const name of readdirSync(SHARED_MEMORY)) {
    const path = join(SHARED_MEMORY, name);
    const isOurs = name.startsWith("holdpoint-test-");
    if (!isOurs || Date.now() - statSync(path).mtimeMs < DAY_MS) continue;
    rmSync(path, { recursive: true, force: true });
  }
}

async function dropTemplate(serverUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: `${serverUrl}/postgres` });
  await client.connect();
  await client.query(`ALTER DATABASE ${TEMPLATE} WITH IS_TEMPLATE false`);
  await client.query(`DROP DATABASE ${TEMPLATE}`);
  await client.end();
}
