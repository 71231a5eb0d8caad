import pg from "pg";
import { afterAll, beforeAll, expect, test } from "vitest";
import { diffFromDatabase } from "../../prisma/diff.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";

let database: TestDatabase;
beforeAll(async () => {
  database = await testDatabase();
});
afterAll(() => database.drop());

test("schema.prisma and the migrated database do not differ", async () => {
  expect(await diffFromDatabase(database.ownerUrl, "database")).toBe("");
});

test("a column that only the database has is told as a difference", async () => {
  const client = new pg.Client({ connectionString: database.ownerUrl });
  await client.connect();
  await client.query("ALTER TABLE snag ADD COLUMN stray text");
  await client.end();
  expect(await diffFromDatabase(database.ownerUrl, "database")).toContain('DROP COLUMN "stray"');
});
