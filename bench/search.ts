// `npm run bench:search`: how long the one search box takes in a firm of 200,000 units, by what is
// typed; each text once, as the application's own role under forced row-level security.
import { chmodSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { connect, type Database } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { inFirm } from "../src/db/scope.ts";
import { seek } from "../src/features/search/seek.ts";

const FIRM = "00000000-0000-7000-8000-000000000001";
const NOW = new Date("2026-11-25T09:00:00Z");
const TEXTS = Number(process.env.BENCH_TEXTS ?? 60);

const folder = mkdtempSync(join(tmpdir(), "holdpoint-bench-"));
chmodSync(folder, 0o711);
const cluster = await startCluster({ folder, superuserPassword: "bench" });
try {
  const passwords = { owner: "bench", app: "bench" };
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", passwords);
  await migrate(urls.ownerUrl);
  const superuser = new pg.Client(`${cluster.superuserUrl}/bench`);
  await superuser.connect();
  await superuser.query(readFileSync(new URL("search-firm.sql", import.meta.url), "utf8"));
  await superuser.query("VACUUM ANALYZE");
  await superuser.end();
  const db = connect({ url: urls.appUrl, poolSize: 2 });
  await report(db);
  await db.close();
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}

async function report(db: Database): Promise<void> {
  const all: number[] = [];
  for (const [kind, texts] of Object.entries(await textsOf(db))) {
    const timesMs: number[] = [];
    let found = 0;
    for (const { text, id } of texts) {
      const start = performance.now();
      const things = await inFirm(db, FIRM, (tx) =>
        seek(tx, text, { roles: ["office"], now: NOW }),
      );
      timesMs.push(performance.now() - start);
      if (things.some((thing) => thing.id === id)) found += 1;
    }
    all.push(...timesMs);
    row(kind, timesMs, `${found} of ${texts.length} found what was meant`);
  }
  row("all", all, `${all.length} texts`);
}

function row(kind: string, timesMs: readonly number[], note: string): void {
  const sorted = timesMs.toSorted((left, right) => left - right);
  const at = (part: number): string =>
    (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? 0).toFixed(1);
  console.log(
    `${kind.padEnd(20)} p50 ${at(0.5).padStart(6)} ms  p95 ${at(0.95).padStart(6)} ms  ` +
      `p99 ${at(0.99).padStart(6)} ms  ${note}`,
  );
}

interface Typed {
  text: string;
  /** What is meant by it; nothing where it says too little. */
  id?: string;
}

async function textsOf(db: Database): Promise<Record<string, Typed[]>> {
  const some = { take: TEXTS, skip: 1000, orderBy: { id: "asc" } } as const;
  const rows = await inFirm(db, FIRM, async (tx) => ({
    customers: await tx.customer.findMany(some),
    sites: await tx.site.findMany(some),
    units: await tx.unit.findMany(some),
  }));
  const { customers, sites, units } = rows;
  const names = customers.map(({ id, name }) => ({ id, text: name }));
  const streets = sites.map(({ id, addressLine }) => ({ id, text: addressLine }));
  const serials = units.map(({ id, serial }) => ({ id, text: serial }));
  const common = ["street", "garage", "row", "lane", "inverter"];
  return {
    name: names,
    "name, a slip": names.map(slipped),
    street: streets,
    "street, a slip": streets.map(slipped),
    "a common word": streets.map((_, index) => ({ text: common[index % common.length] ?? "" })),
    postcode: sites.map(({ id, postcode }) => ({ id, text: postcode })),
    phone: customers.map(({ id, phone }) => ({ id, text: phone ?? "" })),
    reference: customers.map(({ id, reference }) => ({ id, text: reference })),
    serial: serials,
    "serial, its end": serials.map(({ id, text }) => ({ id, text: text.slice(-6) })),
    "serial, a slip": serials.map(slipped),
    "not there": serials.map((_, index) => ({ text: `qxzv${index} jjkwv` })),
  };
}

/** Words with a slip in the longest of them; house numbers are typed right. */
function slipped({ id, text }: Typed, turn: number): Typed {
  const words = text.split(" ");
  const longest = words.toSorted((left, right) => right.length - left.length)[0] ?? "";
  const wrong = words.map((word) => (word === longest ? slip(word, turn) : word)).join(" ");
  return id === undefined ? { text: wrong } : { id, text: wrong };
}

/** One letter left out, or two exchanged, by turns and in turning places. */
function slip(text: string, turn: number): string {
  const place = 1 + (turn % Math.max(1, text.length - 3));
  const after = text.slice(place);
  const slipped = turn % 2 ? after.slice(1) : after.charAt(1) + after.charAt(0) + after.slice(2);
  return text.slice(0, place) + slipped;
}
