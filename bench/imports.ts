// `npm run bench:imports`: files of 100,000 rows through dry run and import, by kind; rows a second
// beside a plain COPY of the same file into a bare table of the same server, the most memory that
// the process held, and how long it left others waiting. Each kind runs in a process of its own.
// Other numbers of rows, each in a database of its own: BENCH_ROWS=100000,400000.
import { fork } from "node:child_process";
import { once } from "node:events";
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import pg from "pg";
import { connect } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { foundFirm } from "../src/features/firms/store.ts";
import { addPerson } from "../src/features/people/add-person.ts";
import { addProductModel } from "../src/features/product-models/store.ts";
import type { KindOrder } from "./imports-kind.ts";
import { headerOf, KINDS, writeTable } from "./imports-tables.ts";

const SIZES = (process.env.BENCH_ROWS ?? "100000").split(",").map(Number);

const folder = mkdtempSync(join(tmpdir(), "holdpoint-bench-"));
chmodSync(folder, 0o711);

async function found(appUrl: string): Promise<{ firmId: string; personId: string }> {
  const db = connect({ url: appUrl, poolSize: 1 });
  const firm = { name: "bench", timeZone: "Europe/London", unitSystem: "metric" as const };
  const { firmId, result } = await foundFirm(db, firm, async (tx) => {
    await addProductModel(tx, {
      ...{ code: "CAIRN", name: "Cairn 48", maker: "Fellside Storage", kind: "battery-pack" },
      ...{ attributes: {}, serialMask: "FS#{8}", serialCheck: "none", firmwareScheme: "semver" },
    });
    const person = { email: "o@bench.example", name: "Office", passwordHash: null };
    return addPerson(tx, { ...person, roles: ["office"] });
  });
  await db.close();
  return { firmId, personId: result.id };
}

/** The same file into a table of texts, by the server itself. */
async function copied(superuser: pg.Client, path: string, header: string): Promise<number> {
  const columns = header.split(",").map((_name, index) => `c${index} text`);
  await superuser.query(`DROP TABLE IF EXISTS plain; CREATE TABLE plain (${columns.join(", ")})`);
  const began = performance.now();
  await superuser.query(`COPY plain FROM '${path}' WITH (FORMAT csv, HEADER)`);
  return (performance.now() - began) / 1000;
}

async function inItsProcess(order: KindOrder): Promise<void> {
  const file = fileURLToPath(new URL("imports-kind.ts", import.meta.url));
  const [code] = await once(fork(file, [JSON.stringify(order)]), "exit");
  if (code !== 0) throw new Error(`${order.kind} ended with ${code}`);
}

async function measureAll(superuserUrl: string, rows: number): Promise<void> {
  const database = `bench_${rows}`;
  const passwords = { owner: "bench", app: "bench" };
  const { ownerUrl, appUrl } = await prepareEmbedded(superuserUrl, database, passwords);
  await migrate(ownerUrl);
  const superuser = new pg.Client(`${superuserUrl}/${database}`);
  await superuser.connect();
  const whose = await found(appUrl);
  for (const kind of KINDS) {
    const path = join(folder, `${kind}.csv`);
    await writeTable(path, kind, rows);
    const copyS = await copied(superuser, path, headerOf(kind));
    await inItsProcess({ kind, rows, folder, appUrl, ...whose, copyS });
    rmSync(path);
  }
  await superuser.end();
}

const cluster = await startCluster({ folder, superuserPassword: "bench" });
try {
  for (const rows of SIZES) await measureAll(cluster.superuserUrl, rows);
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}
