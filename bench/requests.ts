// `npm run bench:requests`: our work beside a baseline measured in the same run, as ratios. Takes
// turns, so that a machine that drifts drifts for both; nothing here is a test.
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { uuidv7 } from "uuidv7";
import { connect } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { startChild } from "./child.ts";
import { type BenchData, benchData, ITEMS } from "./data.ts";
import { benchGate } from "./gate.ts";
import { type Figures, load, loop, median } from "./measure.ts";
import { row } from "./row.ts";
import { signIn } from "./sign-in.ts";

const CONNECTIONS = 32;
const SECONDS = Number(process.env.BENCH_SECONDS ?? 4);
const TURNS = 5;
const INSERT = "single-row insert + commit";
const JWT_SECRET = "a secret for the bench and nothing else";

const folder = mkdtempSync(join(tmpdir(), "holdpoint-bench-"));
chmodSync(folder, 0o711);
const cluster = await startCluster({
  folder,
  superuserPassword: "bench",
  settings: ["max_connections=150"],
});
try {
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", {
    owner: "bench",
    app: "bench",
  });
  await migrate(urls.ownerUrl);
  const db = connect({ url: urls.appUrl, poolSize: 4 });
  const data = await benchData(db);
  await db.close();
  const superuser = new pg.Client(`${cluster.superuserUrl}/bench`);
  await superuser.connect();
  await superuser.query("ANALYZE; CREATE TABLE bench_row (id uuid PRIMARY KEY, body jsonb)");
  await superuser.end();
  console.log(
    `Node ${process.version}, ${CONNECTIONS} connections, ${TURNS} turns of ${SECONDS} s each, medians\n`,
  );
  await benchRead(urls.appUrl, data);
  await benchSubmit(urls.appUrl, data);
  await benchBareInsert(data);
  for (const units of [0, 12]) reportGate(units);
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}

function reportGate(units: number): void {
  const figures = benchGate(units);
  const { answers, gateUs, comparisonsUs, verdictsPerSecond, comparisonsPerSecond } = figures;
  const job = `150 items${units > 0 ? ` of each of ${units} units` : ""}, ${answers} answers`;
  row(
    `gate over ${job}`,
    `${gateUs.toFixed(0)} µs`,
    `plain comparisons ${comparisonsUs.toFixed(1)} µs`,
    `${(gateUs / comparisonsUs).toFixed(0)} ×`,
    units > 0 ? "–" : "≤ 100 µs",
  );
  row(
    `verdicts, ${job}`,
    `${verdictsPerSecond.toFixed(0)}/s`,
    `plain comparisons ${comparisonsPerSecond.toFixed(0)}/s`,
    `ratio ${(verdictsPerSecond / comparisonsPerSecond).toFixed(3)}`,
  );
}

async function benchRead(appUrl: string, data: BenchData): Promise<void> {
  const bareUrl = `${cluster.superuserUrl}/bench`;
  const bare = await startChild("bare-server.ts", [bareUrl, data.firmId]);
  const ours = await startChild("our-server.ts", [appUrl, folder, JWT_SECRET]);
  const token = await signIn(ours.port, data);
  const unit = (n: number): string => data.unitIds[(n * 7919) % data.unitIds.length] ?? "";
  const bareNext = (n: number) => ({ method: "GET", path: `/units/${unit(n)}`, headers: {} });
  const oursNext = (n: number) => ({
    method: "GET",
    path: `/api/v1/units/${unit(n)}`,
    headers: { authorization: `Bearer ${token}` },
  });
  const figures = await turns(
    () => load({ port: ours.port, connections: CONNECTIONS, seconds: SECONDS, next: oursNext }),
    () => load({ port: bare.port, connections: CONNECTIONS, seconds: SECONDS, next: bareNext }),
  );
  bare.stop();
  ours.stop();
  report("GET one unit", figures, "bare Fastify + pg", "≥ 0.60");
}

async function benchSubmit(appUrl: string, data: BenchData): Promise<void> {
  const ours = await startChild("our-server.ts", [appUrl, folder, JWT_SECRET]);
  const token = await signIn(ours.port, data);
  const next = readingOf(data, token);
  const { insert, end } = directInserts();
  const figures = await turns(
    () => load({ port: ours.port, connections: CONNECTIONS, seconds: SECONDS, next }),
    insert,
  );
  await end();
  ours.stop();
  report("submit one reading, durable, with ledger entry", figures, INSERT, "≥ 0.50");
}

/** What HTTP alone leaves of the same inserts: no service on this machine comes above it. */
async function benchBareInsert({ firmId }: BenchData): Promise<void> {
  const bare = await startChild("bare-server.ts", [`${cluster.superuserUrl}/bench`, firmId]);
  const headers = { "content-type": "application/json" };
  const next = () => {
    const body = JSON.stringify({ id: uuidv7(), body: { number: 40, unit: "V" } });
    return { method: "POST", path: "/rows", headers, body };
  };
  const { insert, end } = directInserts();
  const figures = await turns(
    () => load({ port: bare.port, connections: CONNECTIONS, seconds: SECONDS, next }),
    insert,
  );
  await end();
  bare.stop();
  report("for comparison: one row through bare Fastify + pg", figures, INSERT, "–");
}

function directInserts(): { insert: () => Promise<Figures>; end: () => Promise<void> } {
  const pool = new pg.Pool({ connectionString: `${cluster.superuserUrl}/bench`, max: CONNECTIONS });
  // The server ends before the pool where a bench fails; what failed is told then, not this.
  pool.on("error", () => undefined);
  const insert = async (): Promise<void> => {
    const row = [uuidv7(), { number: 40, unit: "V" }];
    await pool.query("INSERT INTO bench_row VALUES ($1, $2)", row);
  };
  const figures = async (): Promise<Figures> => {
    const perSecond = await loop(CONNECTIONS, SECONDS, insert);
    return { perSecond, p50Ms: 0, p99Ms: 0, refused: 0 };
  };
  return { insert: figures, end: () => pool.end() };
}

interface Pair {
  ours: Figures;
  base: Figures;
}

async function turns(ours: () => Promise<Figures>, base: () => Promise<Figures>): Promise<Pair[]> {
  await ours();
  await base();
  const pairs: Pair[] = [];
  for (let turn = 0; turn < TURNS; turn += 1)
    pairs.push({ ours: await ours(), base: await base() });
  return pairs;
}

function report(name: string, pairs: Pair[], baseline: string, aim: string): void {
  const refused = pairs.reduce((sum, { ours }) => sum + ours.refused, 0);
  if (refused > 0) throw new Error(`${name}: ${refused} requests were refused`);
  const ours = median(pairs.map((pair) => pair.ours.perSecond));
  const base = median(pairs.map((pair) => pair.base.perSecond));
  const ratio = median(pairs.map((pair) => pair.ours.perSecond / pair.base.perSecond));
  const p99 = median(pairs.map((pair) => pair.ours.p99Ms));
  row(
    name,
    `${ours.toFixed(0)}/s (p99 ${p99.toFixed(1)} ms)`,
    `${baseline} ${base.toFixed(0)}/s`,
    ratio.toFixed(2),
    aim,
  );
}

/** The n-th reading: of another job each time, and of the next item when all had one. */
function readingOf(data: BenchData, token: string) {
  return (n: number) => ({
    method: "POST",
    path: `/api/v1/jobs/${data.jobIds[n % data.jobIds.length]}/answers`,
    headers: { authorization: `Bearer ${token}`, "content-type": "application/json" },
    body: JSON.stringify({
      answers: [
        {
          id: uuidv7(),
          itemId: `item_${Math.floor(n / data.jobIds.length) % ITEMS}`,
          takenAt: "2026-11-25T09:00:00+00:00",
          instrumentId: data.instrumentId,
          value: { number: 40, unit: "V" },
        },
      ],
    }),
  });
}
