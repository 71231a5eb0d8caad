// A service on an embedded database of its own, in a folder as an operator has it.
import { execFile } from "node:child_process";
import { chmodSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import pg from "pg";
import { openDatabase } from "../../src/db/open.ts";
import { readSecrets } from "../../src/secrets.ts";
import { type ServiceOptions, startService, type TestService } from "./app.ts";
import { configIn, temporaryFolder } from "./demo.ts";

const CLI = fileURLToPath(new URL("../../src/cli.ts", import.meta.url));
const run = promisify(execFile);

/** Under root the database runs as another account, which must be able to enter. */
export function clusterFolder(): string {
  const folder = temporaryFolder();
  chmodSync(folder, 0o711);
  return folder;
}

export async function startServiceIn(
  folder: string,
  options: ServiceOptions = {},
): Promise<TestService> {
  const secrets = readSecrets(folder);
  const opened = await openDatabase(configIn(folder), secrets);
  const { ownerUrl, url: appUrl, db } = opened;
  const database = { db, ownerUrl, appUrl, drop: () => opened.close() };
  const environment = { DATA_DIR: folder, ...options.environment };
  return startService({ ...options, environment, database });
}

/** The superuser's address of the server that works on this folder now. */
export function superuserUrl(folder: string, { ownerUrl }: { ownerUrl: string }): string {
  const url = new URL(ownerUrl);
  url.username = "postgres";
  url.password = encodeURIComponent(readSecrets(folder).superuserPassword);
  return url.toString();
}

export interface Ended {
  code: number;
  said: string;
}

/** An operator's command in a process of its own, with what it said. */
export async function operate(
  folder: string,
  args: string[],
  environment: Record<string, string> = {},
): Promise<Ended> {
  const env = { PATH: process.env.PATH, DATA_DIR: folder, ...environment };
  try {
    const { stdout, stderr } = await run(process.execPath, [CLI, ...args], { env });
    return { code: 0, said: stdout + stderr };
  } catch (error) {
    const { code, stdout, stderr } = error as { code: number; stdout: string; stderr: string };
    return { code, said: stdout + stderr };
  }
}

/** A hash of each table's rows, whatever their order: the same rows give the same. */
export async function rowHashes(url: string): Promise<Record<string, string>> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const { rows: tables } = await client.query(
    "SELECT quote_ident(tablename) AS name FROM pg_tables WHERE schemaname = 'public'",
  );
  const hashes: Record<string, string> = {};
  for (const { name } of tables) {
    const { rows } = await client.query(
      `SELECT concat_ws(' ', count(*), md5(string_agg(t::text, '|' ORDER BY t::text))) AS hash
       FROM ${name} t`,
    );
    hashes[name] = rows[0].hash;
  }
  await client.end();
  return hashes;
}
