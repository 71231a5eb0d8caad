import { randomBytes } from "node:crypto";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { migrate, readMigrations } from "../../src/db/migrate.ts";

const name = `holdpoint_${randomBytes(6).toString("hex")}`;
const serverUrl = inject("serverUrl");
const url = `${serverUrl}/${name}`;

async function query(sql: string, database = url): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: database });
  await client.connect();
  try {
    return await client.query(sql);
  } finally {
    await client.end();
  }
}

beforeAll(() => query(`CREATE DATABASE ${name}`, `${serverUrl}/postgres`));
afterAll(() => query(`DROP DATABASE ${name} WITH (FORCE)`, `${serverUrl}/postgres`));

describe("migrations", () => {
  test("are applied once each when ten processes start together", async () => {
    const results = await Promise.all(Array.from({ length: 10 }, () => migrate(url)));
    const names = readMigrations().map((migration) => migration.name);
    expect(results.flat().sort()).toEqual(names);
    const { rows } = await query("SELECT migration_name FROM _prisma_migrations ORDER BY 1");
    expect(rows.map((row) => row.migration_name)).toEqual(names);
  });

  test("do nothing the second time", async () => {
    expect(await migrate(url)).toEqual([]);
  });

  test("are refused when a file was changed after it was applied", async () => {
    const changed = readMigrations().map((migration) => ({
      ...migration,
      checksum: "0".repeat(64),
    }));
    await expect(migrate(url, changed)).rejects.toThrow("was changed after it was applied");
  });

  test("that fail leave nothing behind", async () => {
    const broken = {
      name: "99999999999999_broken",
      sql: "CREATE TABLE half (id int); SELECT no_such_function();",
      checksum: "f".repeat(64),
    };
    await expect(migrate(url, [...readMigrations(), broken])).rejects.toThrow("was undone");
    const { rows } = await query("SELECT to_regclass('half') AS half");
    expect(rows[0].half).toBeNull();
  });
});
