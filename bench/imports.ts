// `npm run bench:imports`: files of 100,000 rows through dry run and import, by kind; rows a second
// beside a plain COPY of the same file into a bare table of the same server, the most memory that
// the process held, and how long it left others waiting. Another number of rows: BENCH_ROWS.
import { chmodSync, createReadStream, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { monitorEventLoopDelay } from "node:perf_hooks";
import pg from "pg";
import { connect, type Database } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { inFirm } from "../src/db/scope.ts";
import { foundFirm } from "../src/features/firms/store.ts";
import { confirmImport } from "../src/features/imports/decide-import.ts";
import { requireImport } from "../src/features/imports/import-state.ts";
import { receiveFile } from "../src/features/imports/receive-file.ts";
import type { Figures, ImportKindName } from "../src/features/imports/schemas.ts";
import { startDryRun } from "../src/features/imports/start-dry-run.ts";
import { addImport } from "../src/features/imports/store.ts";
import type { Desk } from "../src/features/imports/task.ts";
import { workOn } from "../src/features/imports/work.ts";
import { addPerson } from "../src/features/people/store.ts";
import { addProductModel } from "../src/features/product-models/store.ts";

const ROWS = Number(process.env.BENCH_ROWS ?? 100_000);
const MB = 1024 * 1024;

const folder = mkdtempSync(join(tmpdir(), "holdpoint-bench-"));
chmodSync(folder, 0o711);
async function found(db: Database): Promise<{ firmId: string; personId: string }> {
  const firm = { name: "bench", timeZone: "Europe/London", unitSystem: "metric" as const };
  const { firmId, result } = await foundFirm(db, firm, async (tx) => {
    await addProductModel(tx, {
      ...{ code: "CAIRN", name: "Cairn 48", maker: "Fellside Storage", kind: "battery-pack" },
      ...{ attributes: {}, serialMask: "FS#{8}", serialCheck: "none", firmwareScheme: "semver" },
    });
    const person = { email: "o@bench.example", name: "Office", passwordHash: null };
    return addPerson(tx, { ...person, roles: ["office"] });
  });
  return { firmId, personId: result.id };
}

const deskOf = (db: Database, firmId: string): Desk => ({
  ...{ db, dataFolder: folder, firmId, now: () => new Date() },
  onFault: (error) => console.error(error),
});

function* tables(): Generator<[ImportKindName, string]> {
  const lines = (head: string, line: (index: number) => string): string =>
    `${head}\r\n${Array.from({ length: ROWS }, (_, index) => `${line(index)}\r\n`).join("")}`;
  const sites = Math.ceil(ROWS / 5);
  yield [
    "customers",
    lines("reference,name,email,phone,address", (index) => {
      const name = `Person ${index} Núñez`;
      return `K-${index},${name},p${index}@x.example,07${index},"${index} Kiln Lane, Northwick"`;
    }),
  ];
  yield [
    "sites",
    lines(
      "reference,customer,address,town,postcode,country,lat,lon,time zone,supply,region",
      (index) =>
        `Q-${index},K-${index},${index} Larch Row,Northwick,NW0 4ZZ,GB,52.19,-1.71,` +
        "Europe/London,TN-S,uk",
    ),
  ];
  yield [
    "units",
    lines("model,serial,hardware,site,installed at", (index) => {
      const serial = `FS${String(index).padStart(8, "0")}`;
      return `CAIRN,${serial},C2,Q-${index % sites},2026-03-02`;
    }),
  ];
  yield [
    "firmware-levels",
    lines("serial,level,read at", (index) => {
      const serial = `FS${String(index % (ROWS / 2)).padStart(8, "0")}`;
      return `${serial},1.${index % 7}.0,2026-0${1 + Math.floor(index / (ROWS / 2))}-02T09:30:00Z`;
    }),
  ];
}

async function measure(
  desk: Desk,
  superuser: pg.Client,
  personId: string,
  kind: ImportKindName,
  text: string,
): Promise<void> {
  const path = join(folder, `${kind}.csv`);
  writeFileSync(path, text, { mode: 0o644 });
  const copyS = await copied(superuser, path, text.slice(0, text.indexOf("\r\n")));
  const watch = new Watch();
  const fields = { kind, fileName: `${kind}.csv`, personId };
  const { id } = await inFirm(desk.db, desk.firmId, (tx) => addImport(tx, fields, desk.now()));
  const began = performance.now();
  await receiveFile(desk, id, createReadStream(path));
  await startDryRun(desk, id, { constants: {} }, desk.now());
  await workOn(desk, id);
  const tried = performance.now();
  await inFirm(desk.db, desk.firmId, (tx) => confirmImport(tx, id, "refuse"));
  await workOn(desk, id);
  const ended = performance.now();
  const row = await inFirm(desk.db, desk.firmId, (tx) => requireImport(tx, id));
  const figures = row.figures as Figures;
  if (row.state !== "imported" || figures.bad !== 0 || figures.rows !== ROWS) {
    throw new Error(`${kind} is ${row.state}: ${JSON.stringify(figures)} ${row.problem ?? ""}`);
  }
  report(kind, { copyS, trialS: (tried - began) / 1000, importS: (ended - tried) / 1000 }, watch);
}

/** The same file into a table of texts, by the server itself. */
async function copied(superuser: pg.Client, path: string, header: string): Promise<number> {
  const columns = header.split(",").map((_name, index) => `c${index} text`);
  await superuser.query(`DROP TABLE IF EXISTS plain; CREATE TABLE plain (${columns.join(", ")})`);
  const began = performance.now();
  await superuser.query(`COPY plain FROM '${path}' WITH (FORMAT csv, HEADER)`);
  return (performance.now() - began) / 1000;
}

/** The most memory that the process holds, and how late its other work comes. */
class Watch {
  mostBytes = process.memoryUsage.rss();
  readonly delay = monitorEventLoopDelay({ resolution: 10 });
  private readonly timer = setInterval(() => {
    this.mostBytes = Math.max(this.mostBytes, process.memoryUsage.rss());
  }, 50);

  constructor() {
    this.delay.enable();
  }

  end(): { mostMB: number; lateMs: number } {
    clearInterval(this.timer);
    this.delay.disable();
    return { mostMB: this.mostBytes / MB, lateMs: this.delay.percentile(99) / 1e6 };
  }
}

function report(
  kind: string,
  { copyS, trialS, importS }: { copyS: number; trialS: number; importS: number },
  watch: Watch,
): void {
  const { mostMB, lateMs } = watch.end();
  const perSecond = (seconds: number): string => Math.round(ROWS / seconds).toString();
  console.log(
    `${kind.padEnd(16)} COPY ${perSecond(copyS).padStart(7)} rows/s  dry run ` +
      `${perSecond(trialS).padStart(6)} (${(copyS / trialS).toFixed(3)} of COPY, ` +
      `${trialS.toFixed(1)} s)  import ${perSecond(importS).padStart(6)} ` +
      `(${(copyS / importS).toFixed(3)}, ${importS.toFixed(1)} s)  ` +
      `RSS at most ${mostMB.toFixed(0)} MB  event loop late p99 ${lateMs.toFixed(0)} ms`,
  );
}

const cluster = await startCluster({ folder, superuserPassword: "bench" });
try {
  const passwords = { owner: "bench", app: "bench" };
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", passwords);
  await migrate(urls.ownerUrl);
  const superuser = new pg.Client(`${cluster.superuserUrl}/bench`);
  await superuser.connect();
  const db = connect({ url: urls.appUrl, poolSize: 8 });
  const { firmId, personId } = await found(db);
  const desk = deskOf(db, firmId);
  for (const [kind, text] of tables()) await measure(desk, superuser, personId, kind, text);
  await db.close();
  await superuser.end();
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}
