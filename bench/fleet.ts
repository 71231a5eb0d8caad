// `npm run bench:fleet`: the due list over a million units in a thousand firms, for the one with
// 200,000: our path beside the best SQL we could write by hand, in the same run; and how long
// readers wait while a target moves.
import { chmodSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { connect, type Database } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { dueCounts, dueSites } from "../src/features/firmware/due-list.ts";
import { median } from "./measure.ts";
import { row } from "./row.ts";

const TURNS = 15;
const NOW = new Date("2026-11-25T12:00:00Z");
const PAGE = 50;

const BY_HAND = {
  page: `WITH due AS MATERIALIZED (
      SELECT DISTINCT u.site_id FROM unit u JOIN firmware_target t ON t.firm_id = $1
        AND t.model_id = u.model_id
      WHERE u.firm_id = $1 AND u.firmware_key < t.target_key
        AND u.site_id IN (SELECT x.site_id FROM unit x WHERE x.firm_id = $1
          ORDER BY x.site_id LIMIT 2000)
      ORDER BY 1 LIMIT ${PAGE})
    SELECT s.reference, s.address_line, u.serial, u.firmware_level, t.due_on
    FROM due d JOIN site s ON s.firm_id = $1 AND s.id = d.site_id
    JOIN unit u ON u.firm_id = $1 AND u.site_id = d.site_id
    JOIN firmware_target t ON t.firm_id = $1 AND t.model_id = u.model_id
    WHERE u.firmware_key < t.target_key ORDER BY s.id, u.serial`,
  count: `SELECT count(*) AS units, count(DISTINCT u.site_id) AS sites FROM unit u
    JOIN firmware_target t ON t.firm_id = $1 AND t.model_id = u.model_id
    WHERE u.firm_id = $1 AND u.firmware_key < t.target_key`,
};

const folder = mkdtempSync(join(tmpdir(), "holdpoint-bench-"));
chmodSync(folder, 0o711);
const cluster = await startCluster({ folder, superuserPassword: "bench", settings: [] });
try {
  const names = { owner: "bench", app: "bench" };
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", names);
  await migrate(urls.ownerUrl);
  const superuser = new pg.Client(`${cluster.superuserUrl}/bench`);
  await superuser.connect();
  await superuser.query(readFileSync(new URL("fleet-firms.sql", import.meta.url), "utf8"));
  const { rows } = await superuser.query("SELECT id FROM firm WHERE name = 'Firm 1'");
  const firmId = String(rows[0].id);
  const small = String(
    (await superuser.query("SELECT id FROM firm WHERE name = 'Firm 2'")).rows[0].id,
  );
  const db = connect({ url: urls.appUrl, poolSize: 4 });
  await report("first page of a firm of 200,000", db, superuser, firmId, "page");
  await report("counts of a firm of 200,000", db, superuser, firmId, "count");
  await report("first page of a firm of 800", db, superuser, small, "page");
  await whole(db, firmId);
  await whileMoving(db, superuser, firmId);
  await db.close();
  await superuser.end();
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

/** By turns, so that a machine that drifts drifts for both; the first turn warms up. */
async function report(
  name: string,
  db: Database,
  byHand: pg.Client,
  firmId: string,
  what: "page" | "count",
): Promise<void> {
  const asked = { firmId, filter: {}, now: NOW };
  const ours = () =>
    what === "page" ? dueSites(db, asked, { after: undefined, most: PAGE }) : dueCounts(db, asked);
  const times: { ours: number[]; theirs: number[] } = { ours: [], theirs: [] };
  for (let turn = 0; turn <= TURNS; turn += 1) {
    const theirs = await timed(() => byHand.query(BY_HAND[what], [firmId]));
    const own = await timed(ours);
    if (turn === 0) continue;
    times.ours.push(own);
    times.theirs.push(theirs);
  }
  const [own, theirs] = [median(times.ours), median(times.theirs)];
  row(
    `due list: ${name}`,
    `${own.toFixed(1)} ms`,
    `SQL by hand ${theirs.toFixed(1)} ms`,
    `${(own / theirs).toFixed(2)} ×`,
    what === "page" && name.includes("200,000") ? "≤ 1.5 ×" : "–",
  );
}

async function whole(db: Database, firmId: string): Promise<void> {
  let sites = 0;
  const ms = await timed(async () => {
    for (let after: string | undefined; ; ) {
      const page = await dueSites(db, { firmId, filter: {}, now: NOW }, { after, most: 1000 });
      sites += page.length;
      after = page.at(-1)?.id;
      if (page.length < 1000) return;
    }
  });
  console.log(`the whole list: ${sites} sites in ${(ms / 1000).toFixed(1)} s`);
}

/** Readers ask for pages all the time; meanwhile the target moves to and fro. */
async function whileMoving(db: Database, superuser: pg.Client, firmId: string): Promise<void> {
  const read = () =>
    timed(() => dueSites(db, { firmId, filter: {}, now: NOW }, { after: undefined, most: PAGE }));
  const still: number[] = [];
  for (let turn = 0; turn < 60; turn += 1) still.push(await read());
  const moving: number[] = [];
  const moves: number[] = [];
  let stop = false;
  const mover = (async () => {
    for (let key = 2_000_001; !stop; key += 1) {
      moves.push(
        await timed(() =>
          superuser.query("UPDATE firmware_target SET target_key = $2 WHERE firm_id = $1", [
            firmId,
            key % 2 === 0 ? 1_000_000 : 2_000_000,
          ]),
        ),
      );
    }
  })();
  for (let turn = 0; turn < 60; turn += 1) moving.push(await read());
  stop = true;
  await mover;
  const worst = (times: number[]) => Math.max(...times).toFixed(1);
  console.log(
    `a target that moves: ${median(moves).toFixed(1)} ms a move, ${moves.length} moves; slowest ` +
      `page meanwhile ${worst(moving)} ms, without ${worst(still)} ms`,
  );
}
