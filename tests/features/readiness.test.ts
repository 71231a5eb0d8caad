// When the service says that it can do its work, each reason brought about for real.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { pino } from "pino";
import supertest from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { buildApp } from "../../src/app.ts";
import { readConfig } from "../../src/config.ts";
import { connect } from "../../src/db/client.ts";
import { startRuns } from "../../src/runs/start.ts";
import type { App } from "../../src/web/feature.ts";
import { type TestDatabase, testDatabase } from "../support/database.ts";
import { whileAway } from "../support/database-away.ts";
import { mailConfig } from "../support/smtp.ts";

const folder = mkdtempSync(join(tmpdir(), "holdpoint-ready-"));
let database: TestDatabase;
const apps: App[] = [];
beforeAll(async () => {
  database = await testDatabase();
});
afterAll(async () => {
  for (const app of apps) await app.close();
  await database.drop();
  rmSync(folder, { recursive: true, force: true });
});

type Parts = Partial<Parameters<typeof buildApp>[0]>;

async function start(parts: Parts = {}, dataFolder = folder): Promise<App> {
  const app = await buildApp({
    ...{ db: database.db, jwtSecret: "a secret of forty characters for the tests" },
    config: readConfig({ DATA_DIR: dataFolder, LOG_LEVEL: "silent" }, dataFolder),
    ...parts,
  });
  await app.ready();
  apps.push(app);
  return app;
}

const live = async (app: App) => (await supertest(app.server).get("/health/live")).status;

/** Alive all the same; the checks that failed, and what is said of them. */
async function reasons(app: App): Promise<{ checks: string[]; detail: string }> {
  const reply = await supertest(app.server).get("/health/ready");
  expect(await live(app)).toBe(200);
  if (reply.status === 200) return { checks: [], detail: "" };
  expect(reply.status).toBe(503);
  expect(reply.headers["retry-after"]).toBe("5");
  const list = reply.body.reasons as { check: string; detail: string }[];
  expect(reply.body.detail).toBe(list.map(({ detail }) => detail).join(" "));
  return { checks: list.map(({ check }) => check), detail: reply.body.detail };
}

async function asOwner(sql: string, values: unknown[] = []): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: database.ownerUrl });
  await client.connect();
  try {
    return await client.query(sql, values);
  } finally {
    await client.end();
  }
}

describe("the service is not ready", () => {
  test("while a migration is missing, half done, or was applied from another text", async () => {
    const app = await start();
    expect((await reasons(app)).checks).toEqual([]);
    const { rows } = await asOwner(
      "SELECT * FROM _prisma_migrations ORDER BY migration_name DESC LIMIT 1",
    );
    const { id, migration_name: name, checksum, finished_at: finished } = rows[0];
    const set = (change: string, value: unknown = null) =>
      asOwner(`UPDATE _prisma_migrations SET ${change} WHERE id = $1`, [id, value].slice(0, 2));
    await asOwner("UPDATE _prisma_migrations SET finished_at = NULL WHERE id = $1", [id]);
    expect(await reasons(app)).toMatchObject({
      ...{ checks: ["schema"], detail: expect.stringContaining(`did not end: ${name}.`) },
    });
    await asOwner("UPDATE _prisma_migrations SET rolled_back_at = now() WHERE id = $1", [id]);
    const missing = await reasons(app);
    expect(missing.detail).toContain(`not applied: ${name}.`);
    await set("rolled_back_at = NULL, checksum = 'another', finished_at = $2", finished);
    expect((await reasons(app)).detail).toContain(`from another text: ${name}.`);
    await set("checksum = $2", checksum);
    expect((await reasons(app)).checks).toEqual([]);
    // A later program's migration is there while the programs are changed one by one.
    await asOwner(
      `INSERT INTO _prisma_migrations (id, checksum, migration_name, finished_at)
       VALUES ('x', 'y', '99991231235959_later', now())`,
    );
    expect((await reasons(app)).checks).toEqual([]);
    await asOwner("REVOKE SELECT ON _prisma_migrations FROM holdpoint_app");
    expect((await reasons(app)).checks).toEqual(["schema"]);
    await asOwner("GRANT SELECT ON _prisma_migrations TO holdpoint_app");
  });

  test("while the database is away, and is again when it is back", async () => {
    const own = await testDatabase();
    const db = connect({ url: own.appUrl, poolSize: 4 });
    const app = await start({ db });
    expect((await reasons(app)).checks).toEqual([]);
    await whileAway(own.ownerUrl, async () => {
      expect((await reasons(app)).checks).toEqual(["database"]);
    });
    expect((await reasons(app)).checks).toEqual([]);
    await db.close();
    await own.drop();
  });

  test("before the scheduled work begins and once it stopped", async () => {
    let runs: Awaited<ReturnType<typeof startRuns>> | undefined;
    const app = await start({ queue: { isRunning: () => runs?.isRunning() ?? false } });
    expect((await reasons(app)).checks).toEqual(["queue"]);
    const own = { db: database.db, ownerUrl: database.ownerUrl, url: database.appUrl };
    runs = await startRuns(own, mailConfig({}), pino({ level: "silent" }));
    expect((await reasons(app)).checks).toEqual([]);
    await runs.stop();
    expect(await reasons(app)).toMatchObject({ checks: ["queue"] });
  });

  test("while the data folder is gone, is a file, or takes nothing", async () => {
    const app = await start({}, join(folder, "gone"));
    expect(await reasons(app)).toMatchObject({
      ...{ checks: ["data-folder"], detail: expect.stringContaining("not there") },
    });
    writeFileSync(join(folder, "gone"), "a file");
    expect((await reasons(app)).detail).toContain("not there");
    expect(readdirSync(folder)).toEqual(["gone"]);
  });

  test.skipIf(!mayMount())("while the data folder's disk is full or is for reading", async () => {
    const disk = mkdtempSync(join(tmpdir(), "holdpoint-disk-"));
    execFileSync("mount", ["-t", "tmpfs", "-o", "size=64k", "tmpfs", disk]);
    try {
      const app = await start({}, disk);
      expect((await reasons(app)).checks).toEqual([]);
      expect(readdirSync(disk)).toEqual([]);
      execFileSync("sh", ["-c", `head -c 65536 /dev/zero > '${disk}/full' || true`]);
      expect(await reasons(app)).toMatchObject({
        ...{ checks: ["data-folder"], detail: expect.stringContaining("is full") },
      });
      rmSync(join(disk, "full"));
      expect((await reasons(app)).checks).toEqual([]);
      execFileSync("mount", ["-o", "remount,ro", disk]);
      expect((await reasons(app)).detail).toContain("for reading only");
    } finally {
      execFileSync("umount", [disk]);
      rmSync(disk, { recursive: true, force: true });
    }
  });

  test("once it is stopping, with every other reason beside that one", async () => {
    const app = await start({ queue: { isRunning: () => false } }, join(folder, "gone", "too"));
    const drained = app.drain();
    expect((await reasons(app)).checks).toEqual(["stopping", "queue", "data-folder"]);
    await drained;
  });
});

/** Only root may, and in some containers not even root. */
function mayMount(): boolean {
  const at = mkdtempSync(join(tmpdir(), "holdpoint-mount-"));
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", "size=64k", "tmpfs", at], { stdio: "ignore" });
    execFileSync("umount", [at]);
    return true;
  } catch {
    return false;
  } finally {
    rmSync(at, { recursive: true, force: true });
  }
}
