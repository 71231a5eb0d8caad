// A backup outlives the version that made it: restored by a later one, its rows meet the tables
// they were written for, which are then brought up to date. On a PostgreSQL of one's own.
import { rmSync } from "node:fs";
import { join } from "node:path";
import pg from "pg";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { migrate, readMigrations } from "../../src/db/migrate.ts";
import { temporaryFolder } from "../support/demo.ts";
import { operate } from "../support/own-cluster.ts";

const server = inject("serverUrl");
const names = ["old", "new"].map((age) => `holdpoint_${age}_${uuidv7().slice(-12)}`);
const [oldUrl, newUrl] = names.map((name) => `${server}/${name}`) as [string, string];
const folders = [temporaryFolder(), temporaryFolder()] as const;
const file = join(folders[0], "backup.tar");
const firmId = uuidv7();

async function query(url: string, sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

/** Each command is a process that loads the whole program. */
const timeout = 180_000;

beforeAll(async () => {
  for (const name of names) await query(`${server}/postgres`, `CREATE DATABASE ${name}`);
  await migrate(oldUrl, readMigrations().slice(0, 3));
  await query(
    oldUrl,
    `INSERT INTO firm (id, name, time_zone, unit_system, updated_at)
     VALUES ('${firmId}', E'Tab\\tand\\nline \\\\. Ltd', 'Europe/London', 'metric', now())`,
  );
});
afterAll(async () => {
  for (const name of names) await query(`${server}/postgres`, `DROP DATABASE ${name} WITH (FORCE)`);
  for (const folder of folders) rmSync(folder, { recursive: true });
});

const atOld = { DATABASE_URL: oldUrl };
const atNew = { DATABASE_URL: newUrl };

test("a backup of an older version is restored and brought up to date", { timeout }, async () => {
  expect(await operate(folders[0], ["backup", file], atOld)).toMatchObject({ code: 0 });
  expect(await operate(folders[1], ["restore", file], atNew)).toMatchObject({ code: 0 });
  expect(await query(newUrl, "SELECT id, name FROM firm")).toEqual([
    { id: firmId, name: "Tab\tand\nline \\. Ltd" },
  ]);
  const applied = await query(newUrl, "SELECT migration_name AS name FROM _prisma_migrations");
  expect(applied.map(({ name }) => name).sort()).toEqual(readMigrations().map(({ name }) => name));
});

test("a database that holds something already is left as it is", async () => {
  const refused = await operate(folders[1], ["restore", file, "--replace"], atNew);
  expect(refused).toMatchObject({ code: 1 });
  expect(refused.said).toContain("already holds tables");
});

test("a backup of a later version is refused with the way out", { timeout }, async () => {
  await query(
    oldUrl,
    `INSERT INTO _prisma_migrations (id, checksum, migration_name, finished_at)
     VALUES ('later', repeat('0', 64), '29990101000000_later', now())`,
  );
  expect(await operate(folders[0], ["backup", file], atOld)).toMatchObject({ code: 0 });
  const refused = await operate(folders[1], ["restore", file, "--check"], atNew);
  expect(refused).toMatchObject({ code: 1 });
  expect(refused.said).toContain("29990101000000_later is not known here");
});

test("nothing in the database counts by a sequence, which a backup would leave out", async () => {
  const counters = await query(
    newUrl,
    "SELECT sequencename FROM pg_sequences WHERE schemaname = 'public'",
  );
  expect(counters).toEqual([]);
});
