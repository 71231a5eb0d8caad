import { randomBytes } from "node:crypto";
import pg from "pg";
import { PgBoss } from "pg-boss";
import { pino } from "pino";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { QUEUE_SCHEMA, type QueueOptions, type Run, startQueue } from "../../src/runs/queue.ts";
import { startRuns } from "../../src/runs/start.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";
import { mailConfig } from "../support/smtp.ts";

let database: TestDatabase;
let options: QueueOptions;
const faults: unknown[] = [];
beforeAll(async () => {
  database = await testDatabase();
  options = {
    ownerUrl: database.ownerUrl,
    url: database.appUrl,
    onError: (error) => faults.push(error),
    onWarning: () => undefined,
  };
});
afterAll(() => database.drop());

async function query(sql: string, url = database.ownerUrl): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

const freshName = () => `run-${randomBytes(4).toString("hex")}`;
const NEVER = "0 0 29 2 *";

async function ask(...names: string[]): Promise<void> {
  const boss = new PgBoss({
    connectionString: database.appUrl,
    schema: QUEUE_SCHEMA,
    migrate: false,
  });
  boss.on("error", (error) => faults.push(error));
  await boss.start();
  for (const name of names) await boss.send(name);
  await boss.stop({ graceful: false });
}

const endOf = (name: string) =>
  query(`SELECT state, count(*)::int FROM pgboss.job WHERE name = '${name}' GROUP BY state`);

describe("the scheduled work", () => {
  test("starts on three instances at once, in tables the application cannot change", async () => {
    const logger = pino({ level: "silent" });
    const own = { db: database.db, ownerUrl: database.ownerUrl, url: database.appUrl };
    const starts = Array.from({ length: 3 }, () => startRuns(own, mailConfig({}), logger));
    const instances = await Promise.all(starts);
    const schedules = await query("SELECT name, cron FROM pgboss.schedule ORDER BY name");
    expect(schedules).toEqual([
      { name: "draw-papers", cron: "*/5 * * * *" },
      { name: "evidence-exports", cron: "* * * * *" },
      { name: "firmware-notice", cron: "*/5 * * * *" },
      { name: "firmware-rings", cron: "23 * * * *" },
      { name: "imports", cron: "* * * * *" },
      { name: "ledger-checkpoint", cron: "11 * * * *" },
      { name: "purge", cron: "17 3 * * *" },
      { name: "recurring-inspections", cron: "31 * * * *" },
      { name: "send-mail", cron: "* * * * *" },
      { name: "send-webhooks", cron: "* * * * *" },
      { name: "time-stamps", cron: "*/10 * * * *" },
      { name: "visit-mails", cron: "* * * * *" },
      { name: "warranty-reminders", cron: "*/10 * * * *" },
    ]);
    for (const sql of [
      "CREATE TABLE pgboss.mine (id int)",
      "DROP TABLE pgboss.schedule",
      "ALTER TABLE pgboss.queue ADD COLUMN mine int",
    ]) {
      await expect(query(sql, database.appUrl)).rejects.toThrow(/permission denied|must be owner/);
    }
    await Promise.all(instances.map((instance) => instance.stop()));
  });

  test("is done once by one of three instances, however often it is asked for", async () => {
    const name = freshName();
    const done: number[] = [];
    const startOne = (instance: number) => {
      const run: Run = { name, cron: NEVER, work: async () => void done.push(instance) };
      return startQueue(options, [run]);
    };
    const first = await startOne(0);
    await first.stop();
    await ask(name, name, name);
    const instances = await Promise.all([1, 2, 3].map(startOne));
    await expect
      .poll(() => endOf(name), { timeout: 20_000 })
      .toEqual([{ state: "completed", count: 1 }]);
    await Promise.all(instances.map((instance) => instance.stop()));
    expect(done).toHaveLength(1);
  });

  test("under way is finished before the stop returns", async () => {
    const name = freshName();
    let begun = false;
    let finish = (): void => undefined;
    const work = () => {
      begun = true;
      return new Promise<void>((resolve) => {
        finish = resolve;
      });
    };
    const queue = await startQueue(options, [{ name, cron: NEVER, work }]);
    await ask(name);
    await expect.poll(() => begun, { timeout: 20_000 }).toBe(true);
    const stopped = queue.stop();
    finish();
    await stopped;
    expect(await endOf(name)).toEqual([{ state: "completed", count: 1 }]);
  });

  test("that throws is told of and tried again", async () => {
    const name = freshName();
    const work = async () => {
      throw new Error("no luck");
    };
    const queue = await startQueue(options, [{ name, cron: NEVER, work }]);
    await ask(name);
    await expect
      .poll(() => endOf(name), { timeout: 20_000 })
      .toEqual([{ state: "retry", count: 1 }]);
    await queue.stop();
  });

  test("steps down to the application's role where the address names a greater one", async () => {
    const name = freshName();
    const greater = { ...options, url: database.ownerUrl, role: "holdpoint_app" };
    let done = false;
    const work = async () => {
      done = true;
    };
    const queue = await startQueue(greater, [{ name, cron: NEVER, work }]);
    await ask(name);
    await expect.poll(() => done, { timeout: 20_000 }).toBe(true);
    await queue.stop();
  });

  test("says what the owner lacks when its tables cannot be made", async () => {
    const fresh = await testDatabase();
    const weak = { ...options, ownerUrl: fresh.appUrl, url: fresh.appUrl };
    await expect(startQueue(weak, [])).rejects.toThrow(/needs CREATE on the database.*RUNS=false/);
    await fresh.drop();
  });

  test("met no fault of the queue itself", () => {
    expect(faults).toEqual([]);
  });
});
