// `npm run bench:evidence`: the evidence of a fleet as one bag, beside `zip -0` of the same files:
// megabytes a second, their ratio, the most memory that the process held, and how long it left
// others waiting. So many MB of photos: `npm run bench:evidence -- 2048`; 512 else. Each step is a
// process of its own (evidence-step.ts), as each has its own memory. The record of a job is drawn
// soon after its close-out, not by the export: what that takes is told beside it.

import { execFileSync, spawnSync } from "node:child_process";
import { createHash, randomBytes } from "node:crypto";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";
import { uuidv7 } from "uuidv7";
import { connect, type Database } from "../src/db/client.ts";
import { startCluster } from "../src/db/embedded/cluster.ts";
import { migrate } from "../src/db/migrate.ts";
import { prepareEmbedded } from "../src/db/roles.ts";
import { inFirm } from "../src/db/scope.ts";
import { foundFirm } from "../src/features/firms/store.ts";
import { addPerson } from "../src/features/people/add-person.ts";
import { addJobRows } from "../tests/support/rows.ts";
import type { EvidenceStep, StepFigures } from "./evidence-step.ts";
import { row } from "./row.ts";

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
      const sha512 = createHash("sha512").update(bytes).digest("hex");
      const kept = { firmId, id: uuidv7(), jobId, sha256, sha512, personId, ...size };
      return { ...kept, mediaType: "image/jpeg" };
    });
    await inFirm(db, firmId, (tx) => tx.photo.createMany({ data: rows }));
  }
  return octets;
}

const STEP = fileURLToPath(new URL("./evidence-step.ts", import.meta.url));

function taken(step: EvidenceStep): StepFigures {
  const stdio: ["ignore", "pipe", "inherit"] = ["ignore", "pipe", "inherit"];
  const text = execFileSync(process.execPath, [STEP, JSON.stringify(step)], { stdio });
  return JSON.parse(text.toString()) as StepFigures;
}

/** Seconds that `zip -0` takes for the files of the bag; undefined where there is no zip. */
function zipped(bag: string): number | undefined {
  if (spawnSync("zip", ["-v"]).status !== 0) return undefined;
  const unpacked = join(folder, "unpacked");
  execFileSync("unzip", ["-q", bag, "-d", unpacked]);
  const began = performance.now();
  execFileSync("zip", ["-0", "-q", "-r", join(folder, "plain.zip"), "."], { cwd: unpacked });
  return (performance.now() - began) / 1000;
}

async function main(db: Database, url: string): Promise<void> {
  const { firmId, personId } = await found(db);
  const octets = await fill(db, firmId, personId);
  const place = { url, folder, firmId, personId };
  const photos = taken({ ...place, kind: "photos" });
  const papers = taken({ ...place, kind: "papers" });
  const whole = taken({ ...place, kind: "export" });
  const bagMb = statSync(whole.file).size / MB;
  const most = ({ mostBytes, addedBytes }: StepFigures): string =>
    `most memory ${megabytes(mostBytes)}, ${megabytes(addedBytes)} of it by this`;
  const filesMbS = octets / MB / photos.seconds;
  const aJobMs = (papers.seconds / papers.jobs) * 1000;
  const perS = `${(bagMb / whole.seconds).toFixed(0)} MB/s`;
  console.log(`bag of ${bagMb.toFixed(0)} MB, ${megabytes(octets)} of it photos`);
  console.log(`photos    ${filesMbS.toFixed(0)} MB/s hashed and packed, ${most(photos)}`);
  console.log(`papers    ${aJobMs.toFixed(0)} ms a job, drawn before, ${most(papers)}`);
  console.log(`all       ${perS} with each job's record, ${most(whole)}`);
  console.log(`          others waited ${whole.lateMs.toFixed(0)} ms at the 99th percentile`);
  const plainS = zipped(whole.file);
  if (plainS === undefined)
    console.log("zip       is not on this machine: nothing to compare with");
  else {
    const plain = bagMb / plainS;
    const ratio = (mbS: number): string => (mbS / plain).toFixed(2);
    const ratios = `${ratio(filesMbS)} photos, ${ratio(bagMb / whole.seconds)} all`;
    row(
      `evidence bag of ${bagMb.toFixed(0)} MB`,
      `${perS}, ${most(whole)}`,
      `zip -0 ${plain.toFixed(0)} MB/s`,
      ratios,
      "≥ 0.60, memory ≤ 200 MB",
    );
  }
}

const megabytes = (bytes: number): string => `${(bytes / MB).toFixed(0)} MB`;

const cluster = await startCluster({ folder, superuserPassword: "bench" });
try {
  const passwords = { owner: "bench", app: "bench" };
  const urls = await prepareEmbedded(cluster.superuserUrl, "bench", passwords);
  await migrate(urls.ownerUrl);
  const db = connect({ url: urls.appUrl, poolSize: 8 });
  await main(db, urls.appUrl).finally(() => db.close());
} finally {
  await cluster.stop();
  rmSync(folder, { recursive: true, force: true });
}
