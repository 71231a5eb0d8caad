// `npm run bench:evidence`: the evidence of a fleet as one bag, beside `zip -0` of the same files:
// megabytes a second, their ratio, the most memory that the process held, and how long it left
// others waiting. So many MB of photos: `npm run bench:evidence -- 2048`; 512 else.
import { execFileSync, spawnSync } from "node:child_process";
import { createHash, randomBytes } from "node:crypto";
import {
  chmodSync,
  createWriteStream,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { pipeline } from "node:stream/promises";
import sharp from "sharp";
import { uuidv7 } from "uuidv7";
import { readConfig } from "../src/config.ts";
import { connect, type Database } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { inFirm } from "../src/db/scope.ts";
import { type BagParts, bagFiles } from "../src/features/evidence/bag-files.ts";
import { newSums } from "../src/features/evidence/bag-streams.ts";
import { zipBag } from "../src/features/evidence/bag-zip.ts";
import { beginExport } from "../src/features/evidence-exports/begin-export.ts";
import { exportPath } from "../src/features/evidence-exports/export-folder.ts";
import { findEvidenceExport } from "../src/features/evidence-exports/store.ts";
import { workOn } from "../src/features/evidence-exports/work.ts";
import { foundFirm } from "../src/features/firms/store.ts";
import { addPerson } from "../src/features/people/store.ts";
import { openPhoto } from "../src/features/photos/folder.ts";
import { addJobRows } from "../tests/support/rows.ts";

const MB = 1024 * 1024;
const PHOTOS_A_JOB = 20;
const ITEM = { id: "seen", kind: "confirm", title: "Seen", do: "Look", holdPoint: true };
const PLAN = {
  ...{ schema: "plan/1", title: "Bench", decisionRule: "simple", attributes: {} },
  stages: [{ id: "all", title: "All", items: [ITEM] }],
};
const askedMb = Number(process.argv[2] ?? 512);

const folder = mkdtempSync(join(tmpdir(), "holdpoint-bench-"));
chmodSync(folder, 0o711);

async function found(db: Database): Promise<{ firmId: string; personId: string }> {
  const firm = { name: "bench", timeZone: "Europe/London", unitSystem: "metric" as const };
  const { firmId, result } = await foundFirm(db, firm, (tx) =>
    addPerson(tx, {
      ...{ email: "o@bench.example", name: "Office", passwordHash: null, roles: ["office"] },
    }),
  );
  return { firmId, personId: result.id };
}

/** A picture of noise, about a megabyte, and others like it that differ after its end. */
async function pictures(): Promise<() => Buffer> {
  const [width, height] = [1200, 800];
  const raw = { width, height, channels: 3 as const };
  const base = await sharp(randomBytes(width * height * 3), { raw })
    .jpeg({ quality: 78 })
    .toBuffer();
  return () => Buffer.concat([base, randomBytes(16)]);
}

/** @returns octets of the photos */
async function fill(db: Database, firmId: string, personId: string): Promise<number> {
  const picture = await pictures();
  let octets = 0;
  while (octets < askedMb * MB) {
    const service = { db, firm: { firmId } } as Parameters<typeof addJobRows>[0];
    const { jobId } = await addJobRows(service, PLAN);
    const rows = Array.from({ length: PHOTOS_A_JOB }, () => {
      const bytes = picture();
      const sha256 = createHash("sha256").update(bytes).digest("hex");
      const path = join(folder, "photos", firmId, sha256.slice(0, 2), sha256);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, bytes);
      octets += bytes.length;
      const size = { bytes: bytes.length, widthPx: 1200, heightPx: 800 };
      return { firmId, id: uuidv7(), jobId, sha256, mediaType: "image/jpeg", personId, ...size };
    });
    await inFirm(db, firmId, (tx) => tx.photo.createMany({ data: rows }));
  }
  return octets;
}

async function exported(db: Database, firmId: string, personId: string): Promise<string> {
  const config = readConfig({ DATA_DIR: folder }, folder);
  const now = (): Date => new Date();
  const fleet = { kind: "fleet" } as const;
  const { id } = await inFirm(db, firmId, (tx) => beginExport(tx, fleet, personId, now()));
  await workOn({ db, config, firmId, now, onFault: (error) => console.error(error) }, id);
  const row = await inFirm(db, firmId, (tx) => findEvidenceExport(tx, id));
  if (row?.state !== "ready") throw new Error(`the export is ${row?.state}: ${row?.problem}`);
  return exportPath({ dataFolder: folder, firmId, exportId: id });
}

/** Seconds that the photos alone take through hashes, manifests and ZIP file, without papers. */
async function streamed(): Promise<number> {
  const photos = readdirSync(join(folder, "photos"), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => ({
      ...{ name: `data/photos/${name}.jpg`, sha256: name },
      open: async () => openPhoto(folder, basename(dirname(parentPath)), name),
    }));
  const parts: BagParts = {
    key: { ...{ id: "", sealedKey: new Uint8Array(), createdAt: new Date() }, ...NO_KEY },
    readMe: { title: "bench", jobs: 1, entries: 0, ledgers: "", certificates: "" },
    payload: photos,
    info: () => ({}),
    sign: async () => Buffer.alloc(0),
  };
  const sums = newSums();
  const began = performance.now();
  await pipeline(
    zipBag("bench", bagFiles(parts, sums), sums),
    createWriteStream(join(folder, "s")),
  );
  rmSync(join(folder, "s"));
  return (performance.now() - began) / 1000;
}

const NO_KEY = { certificate: "", sha256: "" };

/** Seconds that `zip -0` takes for the files of the bag; undefined where there is no zip. */
function zipped(bag: string): number | undefined {
  if (spawnSync("zip", ["-v"]).status !== 0) return undefined;
  const unpacked = join(folder, "unpacked");
  execFileSync("unzip", ["-q", bag, "-d", unpacked]);
  const began = performance.now();
  execFileSync("zip", ["-0", "-q", "-r", join(folder, "plain.zip"), "."], { cwd: unpacked });
  return (performance.now() - began) / 1000;
}

async function main(db: Database): Promise<void> {
  const { firmId, personId } = await found(db);
  const octets = await fill(db, firmId, personId);
  let mostBytes = process.memoryUsage.rss();
  const timer = setInterval(() => {
    mostBytes = Math.max(mostBytes, process.memoryUsage.rss());
  }, 50);
  const delay = monitorEventLoopDelay({ resolution: 10 });
  delay.enable();
  const streamedS = await streamed();
  const streamedBytes = mostBytes;
  const began = performance.now();
  const bag = await exported(db, firmId, personId);
  const ownS = (performance.now() - began) / 1000;
  clearInterval(timer);
  delay.disable();
  const bagMb = statSync(bag).size / MB;
  const lateMs = delay.percentile(99) / 1e6;
  const perS = (seconds: number): string => `${(bagMb / seconds).toFixed(0)} MB/s`;
  console.log(`bag of ${bagMb.toFixed(0)} MB, ${(octets / MB).toFixed(0)} MB of it photos`);
  const most = (bytes: number): string => `most memory ${(bytes / MB).toFixed(0)} MB`;
  const files = octets / MB / streamedS;
  console.log(`photos    ${files.toFixed(0)} MB/s hashed and packed, ${most(streamedBytes)}`);
  console.log(`all       ${perS(ownS)} with each job's record drawn as PDF, ${most(mostBytes)}`);
  console.log(`          others waited ${lateMs.toFixed(0)} ms at the 99th percentile`);
  const plainS = zipped(bag);
  if (plainS === undefined)
    console.log("zip       is not on this machine: nothing to compare with");
  else {
    const plain = bagMb / plainS;
    const ratios = `${(files / plain).toFixed(2)} photos, ${(plainS / ownS).toFixed(2)} all`;
    console.log(`zip -0    ${plain.toFixed(0)} MB/s; ratios ${ratios} (aim 0.60)`);
  }
}

const cluster = await startCluster({ folder, superuserPassword: "bench" });
try {
  const passwords = { owner: "bench", app: "bench" };
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", passwords);
  await migrate(urls.ownerUrl);
  const db = connect({ url: urls.appUrl, poolSize: 8 });
  await main(db).finally(() => db.close());
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}
