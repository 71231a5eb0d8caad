// Process numbers are used again: the lock of a server that was killed may name a neighbour's.
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import pg from "pg";
import { afterAll, expect, inject, test } from "vitest";
import { clearLeftover, isServerOf } from "../../src/db/embedded/leftover.ts";
import { temporaryFolder } from "../support/demo.ts";

const folder = temporaryFolder();
afterAll(() => rmSync(folder, { recursive: true }));

const ownServer = process.env.TEST_DATABASE_URL === undefined;

test.runIf(ownServer)(
  "a lock that names a neighbour is a leftover; the neighbour stays",
  async () => {
    const client = new pg.Client({ connectionString: `${inject("serverUrl")}/postgres` });
    await client.connect();
    const { rows } = await client.query("SELECT current_setting('data_directory') AS folder");
    const neighbour = rows[0].folder;
    const pid = Number(readFileSync(join(neighbour, "postmaster.pid"), "utf8").split("\n")[0]);
    const cluster = join(folder, "cluster");
    mkdirSync(cluster);
    writeFileSync(join(cluster, "postmaster.pid"), `${pid}\n`);
    await clearLeftover(cluster, join(folder, "holder.pid"));
    expect(existsSync(join(cluster, "postmaster.pid"))).toBe(false);
    expect(isServerOf(neighbour, pid)).toBe(true);
    expect((await client.query("SELECT 1 AS alive")).rows).toEqual([{ alive: 1 }]);
    await client.end();
  },
);
