import { afterAll, beforeAll, expect, test } from "vitest";
import { connect, type Database } from "../../src/db/client.ts";
import type { SlowQuery } from "../../src/db/slow-queries.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";

const told: SlowQuery[] = [];
let database: TestDatabase;
let db: Database;
beforeAll(async () => {
  database = await testDatabase();
  const slowQueries = { leastMs: 80, tell: (query: SlowQuery) => told.push(query) };
  db = connect({ url: database.appUrl, poolSize: 4, slowQueries });
});
afterAll(async () => {
  await db.close();
  await database.drop();
});

test("a slow query is told with its text and how long it took, without its values", async () => {
  await db.pool.query("SELECT pg_sleep($1), $2::text", [0.1, "Ida Marlowe"]);
  await db.prisma.$queryRaw`SELECT pg_sleep(${0.1})::text, ${"Ida Marlowe"}::text`;
  expect(told.map(({ text }) => text)).toEqual([
    "SELECT pg_sleep($1), $2::text",
    "SELECT pg_sleep($1)::text, $2::text",
  ]);
  for (const { ms } of told) expect(ms).toBeGreaterThanOrEqual(80);
  expect(JSON.stringify(told)).not.toContain("Marlowe");
});

test("a slow query that fails is told too, and fails as it would", async () => {
  told.length = 0;
  const failing = db.pool.query("SELECT pg_sleep(0.1), 1 / (random() * 0)::int");
  await expect(failing).rejects.toThrow("division by zero");
  expect(told).toHaveLength(1);
});
