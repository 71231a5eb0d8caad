// `npm run bench:load`: a mixed day of a thousand firms with a million units on one instance and
// its PostgreSQL, everything on this machine, the senders too. First more and more who work at
// once, to see where it saturates; then LOAD_MINUTES (2, in a soak 30) at LOAD_WORKERS, with the
// firmware notice running meanwhile: figures a kind of request, errors, memory a minute.
// LOAD_HEAP_MB gives the instance so much old space and no more.
import { chmodSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { connect } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { inFirm } from "../src/db/scope.ts";
import { addPerson } from "../src/features/people/add-person.ts";
import { hashPassword } from "../src/features/session/password.ts";
import { chanceOf } from "../tests/support/chance.ts";
import { type Child, startChild } from "./child.ts";
import { benchData } from "./data.ts";
import {
  managerWorker,
  officeWorker,
  type SignedInFirm,
  tabletWorker,
  type Worker,
} from "./load-clients.ts";
import { type Outcome, tableOf, workFor } from "./load-measure.ts";
import { residentMegabytes, runNotice } from "./load-side.ts";
import { signIn } from "./sign-in.ts";

const FIRMS = 12;
const LEVELS = [4, 8, 16, 32, 64, 128, 256];
const LEVEL_S = Number(process.env.LOAD_LEVEL_SECONDS ?? 10);
const MINUTES = Number(process.env.LOAD_MINUTES ?? 2);
const WORKERS = Number(process.env.LOAD_WORKERS ?? 16);
const SEED = Number(process.env.SEED ?? 20261126);
const HELD_EACH_MS = 5 * 60_000;
/** Before what was signed in with ends, after a quarter of an hour. */
const SIGN_IN_EACH_MS = 10 * 60_000;
const JWT_SECRET = "a secret for the bench and nothing else";

const folder = mkdtempSync(join(tmpdir(), "holdpoint-load-"));
chmodSync(folder, 0o711);
const cluster = await startCluster({ folder, superuserPassword: "bench" });
try {
  const names = { owner: "bench", app: "bench" };
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", names);
  await migrate(urls.ownerUrl);
  const { firms, big } = await fill(urls.appUrl);
  const profile = process.env.LOAD_PROFILE;
  const profiling = profile ? ["--cpu-prof", `--cpu-prof-dir=${profile}`] : [];
  const heap = process.env.LOAD_HEAP_MB;
  const room = heap ? [`--max-old-space-size=${heap}`] : [];
  const how = ["--expose-gc", ...room, ...profiling];
  const ours = await startChild("our-server.ts", [urls.appUrl, folder, JWT_SECRET], how);
  const signedIn = firms.map((firm) => ({ ...firm, token: "" }));
  const manager = { ...big, token: "" };
  const signAllIn = async (): Promise<void> => {
    for (const one of [...signedIn, manager]) one.token = await signIn(ours.port, one);
  };
  await signAllIn();
  const workers = makeWorkers(signedIn, manager);
  console.log(`Node ${process.version}, seed ${SEED}, ${LEVEL_S} s a level\n`);
  for (const level of LEVELS) {
    const outcome = await workFor(ours.port, workers.slice(0, level), LEVEL_S * 1000);
    console.log(`${level} at work: ${lineOf(outcome)}, ${residentMegabytes(ours.pid)} MB`);
  }
  let signing = Promise.resolve();
  const again = setInterval(() => {
    signing = signAllIn();
  }, SIGN_IN_EACH_MS);
  await longRun(ours, workers.slice(0, WORKERS), { ...urls, folder });
  clearInterval(again);
  await signing;
  ours.stop();
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}

/** Half of them tablets, each with a job of its own; then offices, and some who see the fleet. */
function makeWorkers(firms: SignedInFirm[], big: { token: string }): Worker[] {
  const chance = chanceOf(SEED).share;
  const rounds = Math.ceil(Math.max(...LEVELS, WORKERS) / firms.length);
  const ofRound = (round: number): Worker[] =>
    firms.map((firm, at) => {
      const n = round * firms.length + at;
      if (n % 16 === 15) return managerWorker(big, chance);
      const job = firm.jobIds[round] ?? "";
      return n % 2 === 0 ? tabletWorker(firm, job) : officeWorker(firm, chance);
    });
  return Array.from({ length: rounds }, (_, round) => ofRound(round)).flat();
}

async function fill(appUrl: string) {
  const superuser = new pg.Client(`${cluster.superuserUrl}/bench`);
  await superuser.connect();
  await superuser.query(readFileSync(new URL("fleet-firms.sql", import.meta.url), "utf8"));
  const { rows } = await superuser.query("SELECT id FROM firm WHERE name = 'Firm 1'");
  const db = connect({ url: appUrl, poolSize: 4 });
  const firms = [];
  for (let n = 0; n < FIRMS; n += 1) {
    firms.push(await benchData(db, `bench${n}@firm.example`, { units: 800, jobs: 300 }));
  }
  const big = { email: "big@firm.example", password: "a password for the bench" };
  const passwordHash = await hashPassword(big.password);
  await inFirm(db, String(rows[0].id), (tx) =>
    addPerson(tx, { email: big.email, name: "Big", roles: ["manager"], passwordHash }),
  );
  await db.close();
  await superuser.query(readFileSync(new URL("spread.sql", import.meta.url), "utf8"));
  await superuser.query("ANALYZE");
  const { rows: sites } = await superuser.query(
    `SELECT firm_id, array_agg(id) AS ids FROM site
     WHERE firm_id IN (SELECT id FROM firm WHERE name = 'Bench') GROUP BY firm_id`,
  );
  await superuser.end();
  const siteIdsOf = new Map(sites.map((row) => [row.firm_id, row.ids as string[]]));
  const spread = firms.map((firm) => ({ ...firm, siteIds: siteIdsOf.get(firm.firmId) ?? [] }));
  return { firms: spread, big };
}

async function longRun(
  ours: Child,
  workers: Worker[],
  place: { appUrl: string; ownerUrl: string; folder: string },
): Promise<void> {
  console.log(`\n${MINUTES} min, ${workers.length} at work, firmware notice meanwhile`);
  const notice = runNotice(place);
  const resident: number[] = [residentMegabytes(ours.pid)];
  const held: unknown[] = [await ours.ask("megabytes held")];
  const each = setInterval(() => resident.push(residentMegabytes(ours.pid)), 60_000);
  const now = async (): Promise<void> => void held.push(await ours.ask("megabytes held"));
  const sometimes = setInterval(now, HELD_EACH_MS);
  const outcome = await workFor(ours.port, workers, MINUTES * 60_000);
  clearInterval(each);
  clearInterval(sometimes);
  resident.push(residentMegabytes(ours.pid));
  await now();
  console.log(lineOf(outcome));
  console.log(tableOf(outcome));
  console.log(`memory of the instance, MB, minute by minute: ${resident.join(" ")}`);
  console.log(`of it held after a collection, every five minutes: ${held.join(" ")}`);
  console.log(`firmware notice of every firm: ${await notice}`);
}

function lineOf({ replies, seconds, busy, faults, faultKinds, latencies }: Outcome): string {
  const which = [...faultKinds].map(([kind, times]) => `${times} × ${kind}`).join(", ");
  const [p50, p95, p99] = [0.5, 0.95, 0.99].map((share) => latencies.at(share).toFixed(0));
  return (
    `${(replies / seconds).toFixed(0)} replies/s, p50 ${p50}, p95 ${p95}, p99 ${p99} ms, ` +
    `${busy} told to come again, ${faults} errors${which ? ` (${which})` : ""}`
  );
}
