// One step of the bench of evidence, its time and memory; says so as one line of JSON.
import { readdirSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { pipeline } from "node:stream/promises";
import { readConfig } from "../src/config.ts";
import { connect, type Database } from "../src/db/client.ts";
import { inFirm } from "../src/db/scope.ts";
import { type BagParts, bagFiles } from "../src/features/evidence/bag-files.ts";
import { newSums } from "../src/features/evidence/bag-streams.ts";
import { zipBag } from "../src/features/evidence/bag-zip.ts";
import { beginExport } from "../src/features/evidence-exports/begin-export.ts";
import { exportPath } from "../src/features/evidence-exports/export-folder.ts";
import { findEvidenceExport } from "../src/features/evidence-exports/store.ts";
import { workOn } from "../src/features/evidence-exports/work.ts";
import { makeCommissioningRecord } from "../src/features/papers/make-paper.ts";
import { fileStorage } from "../src/features/photos/files.ts";
import { writeInPieces } from "../src/features/photos/pieces.ts";

export interface EvidenceStep {
  kind: "photos" | "papers" | "export";
  url: string;
  folder: string;
  firmId: string;
  personId: string;
}

export interface StepFigures {
  seconds: number;
  mostBytes: number;
  addedBytes: number;
  lateMs: number;
  file: string;
  jobs: number;
}

type Outcome = Pick<StepFigures, "file" | "jobs">;

/** Draws each job's record. */
async function papers(db: Database, { folder, firmId }: EvidenceStep): Promise<Outcome> {
  const config = readConfig({ DATA_DIR: folder }, folder);
  const jobs = await inFirm(db, firmId, (tx) => tx.job.findMany({ select: { id: true } }));
  for (const { id: jobId } of jobs) {
    await makeCommissioningRecord({ db, config }, { firmId, jobId });
  }
  return { file: "", jobs: jobs.length };
}

async function exported(db: Database, step: EvidenceStep): Promise<Outcome> {
  const { folder, firmId, personId } = step;
  const config = readConfig({ DATA_DIR: folder }, folder);
  const now = (): Date => new Date();
  const fleet = { kind: "fleet" } as const;
  const { id } = await inFirm(db, firmId, (tx) => beginExport(tx, fleet, personId, now()));
  await workOn({ db, config, firmId, now, onFault: (error) => console.error(error) }, id);
  const row = await inFirm(db, firmId, (tx) => findEvidenceExport(tx, id));
  if (row?.state !== "ready") throw new Error(`the export is ${row?.state}: ${row?.problem}`);
  return { file: exportPath({ dataFolder: folder, firmId, exportId: id }), jobs: row.jobsTotal };
}

const NO_KEY = { certificate: "", sha256: "" };
const SUMS = { sha256: true, sha512: true } as const;

/** The photos alone through hashes, manifests and ZIP file, without papers and ledgers. */
async function photos(db: Database, { folder, firmId }: EvidenceStep): Promise<Outcome> {
  const rows = await inFirm(db, firmId, (tx) => tx.photo.findMany({ select: SUMS }));
  const sha512 = new Map(rows.map((row) => [row.sha256, row.sha512 ?? undefined]));
  const storage = fileStorage({ dataFolder: folder });
  const payload = readdirSync(join(folder, "photos"), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => ({
      ...{ name: `data/photos/${name}.jpg`, sha256: name, sha512: sha512.get(name) },
      open: async () => storage.open({ firmId: basename(dirname(parentPath)), sha256: name }),
    }));
  const parts: BagParts = {
    key: { ...{ id: "", sealedKey: new Uint8Array(), createdAt: new Date() }, ...NO_KEY },
    readMe: { title: "bench", jobs: 1, entries: 0, ledgers: "", certificates: "" },
    payload,
    info: () => ({}),
    service: undefined,
    seal: async () => ({ signature: Buffer.alloc(0) }),
  };
  const sums = newSums();
  const file = join(folder, "photos.zip");
  await pipeline(zipBag("bench", bagFiles(parts, sums), sums), writeInPieces(file));
  return { file, jobs: 1 };
}

const KINDS = { photos, papers, export: exported };

async function measured(step: EvidenceStep): Promise<StepFigures> {
  const db = connect({ url: step.url, poolSize: 8 });
  const delay = monitorEventLoopDelay({ resolution: 10 });
  // What the program and its database client take before any of the work.
  await db.prisma.$queryRaw`SELECT 1`;
  const before = process.memoryUsage.rss();
  let mostBytes = before;
  const look = (): void => {
    mostBytes = Math.max(mostBytes, process.memoryUsage.rss());
  };
  const timer = setInterval(look, 50);
  delay.enable();
  const began = performance.now();
  const outcome = await KINDS[step.kind](db, step).finally(() => clearInterval(timer));
  const seconds = (performance.now() - began) / 1000;
  look();
  await db.close();
  return {
    ...outcome,
    seconds,
    mostBytes,
    addedBytes: mostBytes - before,
    lateMs: delay.percentile(99) / 1e6,
  };
}

if (import.meta.main) {
  console.log(JSON.stringify(await measured(JSON.parse(process.argv[2] ?? ""))));
}
