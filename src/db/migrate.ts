// Applies prisma/migrations the way the Prisma CLI records it (table, names, checksums), so that
// `prisma migrate status` agrees on a connected machine; but needs no engine, and any number of
// processes may call it at once.
import { createHash, randomUUID } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import pg from "pg";

export interface Migration {
  name: string;
  sql: string;
  checksum: string;
}

// Prisma's own lock number, so that its CLI and this runner exclude each other too.
const LOCK = 72707369;
const FOLDER = fileURLToPath(new URL("../../prisma/migrations", import.meta.url));

const MIGRATIONS_TABLE = `CREATE TABLE IF NOT EXISTS _prisma_migrations (
  id VARCHAR(36) PRIMARY KEY NOT NULL, checksum VARCHAR(64) NOT NULL, finished_at TIMESTAMPTZ,
  migration_name VARCHAR(255) NOT NULL, logs TEXT, rolled_back_at TIMESTAMPTZ,
  started_at TIMESTAMPTZ NOT NULL DEFAULT now(), applied_steps_count INTEGER NOT NULL DEFAULT 0)`;

export function readMigrations(folder = FOLDER): Migration[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()
    .map((name) => {
      const bytes = readFileSync(join(folder, name, "migration.sql"));
      return { name, sql: bytes.toString("utf8"), checksum: sha256(bytes) };
    });
}

/** Brings the database at `ownerUrl` up to date; returns the names of what it applied. */
export async function migrate(
  ownerUrl: string,
  migrations: readonly Migration[] = readMigrations(),
): Promise<string[]> {
  const client = new pg.Client({
    connectionString: ownerUrl,
    application_name: "holdpoint-migrate",
  });
  await client.connect();
  try {
    await requireVersion(client);
    await client.query("SELECT pg_advisory_lock($1)", [LOCK]);
    await client.query("SET client_min_messages = warning");
    await client.query(MIGRATIONS_TABLE);
    return await applyMissing(client, migrations);
  } finally {
    await client.end();
  }
}

async function applyMissing(
  client: pg.Client,
  migrations: readonly Migration[],
): Promise<string[]> {
  const { rows } = await client.query<{ migration_name: string; checksum: string }>(
    "SELECT migration_name, checksum FROM _prisma_migrations WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL",
  );
  const applied = new Map(rows.map((row) => [row.migration_name, row.checksum]));
  const done: string[] = [];
  for (const migration of migrations) {
    const checksum = applied.get(migration.name);
    if (checksum === undefined) {
      await apply(client, migration);
      done.push(migration.name);
    } else if (checksum !== migration.checksum) {
      throw new Error(
        `Migration ${migration.name} was changed after it was applied. Restore the file as it was and ` +
          "put the change into a new migration.",
      );
    }
  }
  return done;
}

async function apply(client: pg.Client, migration: Migration): Promise<void> {
  await client.query("BEGIN");
  try {
    await client.query(migration.sql);
    await client.query(
      `INSERT INTO _prisma_migrations (id, checksum, migration_name, finished_at, applied_steps_count)
       VALUES ($1, $2, $3, now(), 1)`,
      [randomUUID(), migration.checksum, migration.name],
    );
    await client.query("COMMIT");
  } catch (cause) {
    await client.query("ROLLBACK");
    const reason = cause instanceof Error ? cause.message : String(cause);
    throw new Error(`Migration ${migration.name} failed and was undone: ${reason}`, { cause });
  }
}

async function requireVersion(client: pg.Client): Promise<void> {
  const { rows } = await client.query<{ v: string }>(
    "SELECT current_setting('server_version_num') AS v",
  );
  const version = Number(rows[0]?.v);
  if (version < 150000) {
    throw new Error(
      `PostgreSQL 15 or later is needed; this server is ${Math.floor(version / 10000)}.`,
    );
  }
}

const sha256 = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");
