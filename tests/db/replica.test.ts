import { join } from "node:path";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { connect, type Database } from "../../src/db/client.ts";
import { type RunningCluster, startCluster } from "../../src/db/embedded/cluster.ts";
import { migrate } from "../../src/db/migrate.ts";
import { followReplica } from "../../src/db/replica.ts";
import { prepareEmbedded } from "../../src/db/roles.ts";
import { forReading } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { startFollower } from "../support/following.ts";
import { clusterFolder } from "../support/own-cluster.ts";

const PASSWORDS = { owner: "owner", app: "app" };
let first: RunningCluster;
let follower: RunningCluster;
let service: TestService;
const told: boolean[] = [];

beforeAll(async () => {
  const folders = [clusterFolder(), clusterFolder()] as const;
  first = await startCluster({ folder: folders[0], superuserPassword: "test" });
  const { ownerUrl, appUrl } = await prepareEmbedded(first.superuserUrl, "holdpoint", PASSWORDS);
  await migrate(ownerUrl);
  follower = await startFollower(first, folders[0], join(folders[1], "follower"), "test");
  const db = connect({ url: appUrl, poolSize: 8 });
  const replicaUrl = appUrl.replace(`:${first.port}/`, `:${follower.port}/`);
  const replica = connect({ url: replicaUrl, poolSize: 4 });
  db.replica = followReplica(db, replica, (isFit) => told.push(isFit), 2_000);
  const drop = async (): Promise<void> => {
    await db.replica?.close();
    await db.close();
    await Promise.all([first.stop(), follower.stop()]);
  };
  service = await startService({ database: { db, ownerUrl, appUrl, drop } });
}, 120_000);
afterAll(() => service?.stop());

const until = async (wanted: boolean): Promise<void> => {
  const started = Date.now();
  while (service.db.replica?.isFit() !== wanted) {
    if (Date.now() - started > 25_000) throw new Error(`the replica's fitness is not ${wanted}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
};

/** How often connections of this server were taken for what the paths read. */
async function askedOf(db: Database, paths: string[]): Promise<number> {
  let asked = 0;
  const count = (client: pg.PoolClient): void => {
    asked += client ? 1 : 0;
  };
  for (const pool of Object.values(db.pools)) pool.on("acquire", count);
  for (const path of paths) {
    const reply = await service.as(service.firm.people.manager).get(path);
    expect(reply.status, path).toBe(200);
  }
  for (const pool of Object.values(db.pools)) pool.off("acquire", count);
  return asked;
}

const LISTS = ["/api/v1/fleet/counts", "/api/v1/firmware/due", "/api/v1/firmware/due/counts"];

describe("a replica", () => {
  test("is read for lists once it follows, and what is written is read there soon", async () => {
    await until(true);
    expect(forReading(service.db)).toBe(service.db.replica?.db);
    expect(await askedOf(service.db.replica!.db, LISTS)).toBeGreaterThanOrEqual(LISTS.length);
    expect(await askedOf(service.db.replica!.db, ["/api/v1/jobs", "/api/v1/session"])).toBe(0);
  });

  test("gives every list away as CSV; the export is on record at the first server", async () => {
    const { owner, manager } = service.firm.people;
    const spec = await service.as(owner).get("/openapi.json");
    const lists = Object.keys(spec.body.paths).filter((path) =>
      /exports\/[a-z-]+\.csv$/.test(path),
    );
    expect(lists.length).toBeGreaterThan(20);
    for (const path of lists) {
      const query = path.endsWith("/audit-sample.csv")
        ? "?from=2026-01-01&to=2026-12-31&limit=2.5&seed=abcdef"
        : "";
      // What tablets kept and could not do is the office's to look at, not the owner's.
      const taker = path.endsWith("/held-operations.csv") ? manager : owner;
      const reply = await service.as(taker).get(`${path}${query}`);
      expect(reply.status, `${path} ${reply.text}`).toBe(200);
    }
    const { rows } = await asSuperuser("SELECT count(*)::int AS taken FROM csv_export");
    expect(rows[0].taken).toBe(lists.length);
  });

  test("refuses whatever would be written", async () => {
    const replica = forReading(service.db);
    await expect(replica.pool.query("DELETE FROM sign_in_throttle")).rejects.toThrow(/read-only/);
  });

  test("is left alone while it is behind, and taken again when it has caught up", async () => {
    await asSuperuser("SELECT pg_wal_replay_pause()", follower);
    await asSuperuser("CREATE TABLE written_meanwhile (id int)");
    await until(false);
    expect(forReading(service.db)).toBe(service.db);
    expect(await askedOf(service.db.replica!.db, LISTS)).toBe(0);
    await asSuperuser("SELECT pg_wal_replay_resume()", follower);
    await until(true);
    expect(told).toEqual([true, false, true]);
  });

  test("may end: lists come from the first server then", async () => {
    await follower.stop();
    await until(false);
    expect(await askedOf(service.db, LISTS)).toBeGreaterThanOrEqual(LISTS.length);
  });
});

async function asSuperuser(sql: string, at = first): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: `${at.superuserUrl}/holdpoint` });
  await client.connect();
  try {
    return await client.query(sql);
  } finally {
    await client.end();
  }
}
