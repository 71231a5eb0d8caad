// Statements that travel as one: results, transaction, prepared statements and faults, on a real
// server. What the protocol promises is in PostgreSQL's documentation, "Message Flow: Pipelining".
import type pg from "pg";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { sendBatch } from "../../src/db/batch.ts";
import { connect } from "../../src/db/client.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";

const WRITE = "INSERT INTO sign_in_throttle (key, failures, window_start) VALUES ($1, 1, now())";
const COUNT = "SELECT count(*)::int AS n FROM sign_in_throttle WHERE key LIKE $1";

let database: TestDatabase;
let client: pg.PoolClient;
beforeAll(async () => {
  database = await testDatabase();
  client = await database.db.pool.connect();
});
beforeEach(async () => {
  await client.query("DEALLOCATE ALL");
  Object.assign(client, { connection: forgetful(client) });
});
afterAll(async () => {
  client.release();
  await database.drop();
});

/** The connection, as if nothing had been prepared on it. */
function forgetful(of: pg.PoolClient): object {
  const { connection } = of as unknown as { connection: { parsedStatements: object } };
  connection.parsedStatements = {};
  return connection;
}

const rowsOf = async (...statements: Parameters<typeof sendBatch>[1]): Promise<unknown[]> =>
  (await sendBatch(client, statements)).map(({ rows }) => rows);

const preparedNames = async (): Promise<string[]> => {
  const { rows } = await client.query("SELECT name FROM pg_prepared_statements ORDER BY name");
  return rows.map(({ name }) => name);
};

test("rows come back by statement, values as PostgreSQL and JavaScript write them", async () => {
  const at = new Date("2026-11-25T09:00:00Z");
  const values = [["a", "b"], null, { volts: 51.2 }, at, Buffer.from([1, 2]), 7, true];
  const text = `SELECT $1::text[] AS words, $2::text AS none, $3::jsonb AS reading,
    $4::timestamptz AS at, $5::bytea AS bytes, $6::int AS n, $7::boolean AS yes`;
  const [first, second, third] = await sendBatch(client, [
    { text: "SELECT generate_series(1, 3) AS n" },
    { text, values },
    { text: "SELECT 1 AS n WHERE false" },
  ]);
  expect(first?.rows).toEqual([{ n: 1 }, { n: 2 }, { n: 3 }]);
  expect(second?.rows).toEqual([
    {
      ...{ words: ["a", "b"], none: null, reading: { volts: 51.2 }, at },
      ...{ bytes: Buffer.from([1, 2]), n: 7, yes: true },
    },
  ]);
  expect([third?.rows, third?.rowCount, third?.command]).toEqual([[], 0, "SELECT"]);
});

test("the server answers a batch once, however many statements it has", async () => {
  let answers = 0;
  const { connection } = client as unknown as {
    connection: { on(event: string, told: () => void): void };
  };
  connection.on("readyForQuery", () => {
    answers += 1;
  });
  await rowsOf({ text: "SELECT 1" }, { text: "SELECT 2" }, { text: "SELECT 3" });
  expect(answers).toBe(1);
});

test("a batch that nothing began is one transaction: a fault takes all of it back", async () => {
  const written = sendBatch(client, [
    { text: WRITE, values: ["batch:1"] },
    { text: "SELECT 1 / 0" },
    { text: WRITE, values: ["batch:2"] },
  ]);
  await expect(written).rejects.toMatchObject({ code: "22012" });
  await rowsOf({ text: WRITE, values: ["batch:3"] }, { text: WRITE, values: ["batch:4"] });
  expect(await rowsOf({ text: COUNT, values: ["batch:%"] })).toEqual([[{ n: 2 }]]);
});

test("a name is prepared once, and asked for by name afterwards", async () => {
  const one = { name: "one", text: "SELECT $1::int AS n" };
  expect(await rowsOf({ ...one, values: [1] }, { ...one, values: [2] })).toEqual([
    [{ n: 1 }],
    [{ n: 2 }],
  ]);
  expect(await preparedNames()).toEqual(["one"]);
  expect(await rowsOf({ ...one, values: [3] })).toEqual([[{ n: 3 }]]);
  expect(await preparedNames()).toEqual(["one"]);
});

test("after a fault what was prepared before it is known, what came after is not", async () => {
  const before = { name: "before", text: "SELECT 'before' AS at" };
  const after = { name: "after", text: "SELECT 'after' AS at" };
  const wrong = { name: "wrong", text: "SELECT 1 FROM no_such_table" };
  await expect(rowsOf(before, wrong, after)).rejects.toMatchObject({ code: "42P01" });
  expect(await preparedNames()).toEqual(["before"]);
  expect(await rowsOf(before, after)).toEqual([[{ at: "before" }], [{ at: "after" }]]);
});

test("a name that means another statement already is refused, and nothing is sent", async () => {
  await rowsOf({ name: "level", text: "SELECT 1 AS n" });
  await expect(rowsOf({ name: "level", text: "SELECT 2 AS n" })).rejects.toThrow(/another/);
  expect(await rowsOf({ name: "level", text: "SELECT 1 AS n" })).toEqual([[{ n: 1 }]]);
});

test("a value that cannot be written fails before anything is sent", async () => {
  const round: { self?: unknown } = {};
  round.self = round;
  await expect(
    rowsOf({ text: WRITE, values: ["never"] }, { text: "SELECT $1::json", values: [round] }),
  ).rejects.toThrow(/circular/i);
  expect(await rowsOf({ text: COUNT, values: ["never"] })).toEqual([[{ n: 0 }]]);
});

test("a batch that took long is told as a slow query, without its values", async () => {
  const told: string[] = [];
  const slowQueries = { leastMs: 80, tell: ({ text }: { text: string }) => told.push(text) };
  const db = connect({ url: database.appUrl, poolSize: 2, slowQueries });
  const slow = await db.pool.connect();
  await sendBatch(slow, [
    { text: "SELECT pg_sleep(0.1)" },
    { text: "SELECT $1::text", values: ["Ida Marlowe"] },
  ]);
  slow.release();
  await db.close();
  expect(told).toEqual(["SELECT pg_sleep(0.1);\nSELECT $1::text"]);
});
