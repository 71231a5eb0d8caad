// How the service stands, for whoever runs it: figures, and what to do about those that are amiss.
import { readFileSync } from "node:fs";
import { statfs } from "node:fs/promises";
import { lastBackups } from "../../backups-made.ts";
import type { Config } from "../../config.ts";
import { reasonsNotReady } from "./readiness.ts";
import { readDatabaseFigures, readLastSent } from "./standing-store.ts";
import { type QueueFigures, readQueue, readSchema, readStore } from "./store.ts";

type Ground = Parameters<typeof reasonsNotReady>[0] & { config: Config; now: Date };

export interface Verdict {
  mark: "good" | "watch" | "bad";
  /** What to do; none where it is good. */
  advice: string | null;
}

const GOOD: Verdict = { mark: "good", advice: null };
const DAY_MS = 24 * 3600 * 1000;
const LATE_S = 15 * 60;
const FREE_WATCH = 0.2;
const FREE_BAD = 0.05;

const { version: VERSION } = JSON.parse(
  readFileSync(new URL("../../../package.json", import.meta.url), "utf8"),
) as { version: string };

export async function readStanding(ground: Ground) {
  const { db, config, now } = ground;
  const reasons = await reasonsNotReady(ground);
  const schema = await readSchema(db);
  const { version: postgresql, ...database } = await readDatabaseFigures(db);
  const sums = await readStore(db);
  const lastSentAt = (await readLastSent(db))?.toISOString() ?? null;
  const disk = await readDisk(config.dataFolder);
  const [backup] = await lastBackups(config.dataFolder, 1);
  const mail = { waiting: sums.mailsWaiting, failed: sums.mailsFailed };
  const isPosted = config.SMTP_URL !== undefined;
  return {
    ready: { isReady: reasons.length === 0, reasons },
    versions: {
      ...{ service: VERSION, node: process.versions.node, postgresql },
      ...{ schemaExpected: schema.expected, schemaFound: schema.found },
      ...{ pending: schema.pending, uptimeS: Math.floor(process.uptime()) },
    },
    queues: (await readQueue(db)).map((queue) => ({ ...queue, ...queueVerdict(queue) })),
    mail: { ...mail, lastSentAt, isPosted, ...mailVerdict(mail, isPosted) },
    storage: {
      ...{
        database,
        photoBytes: sums.photoBytes,
        hasBucket: config.PHOTO_BUCKET_URL !== undefined,
      },
      disk: { ...disk, ...diskVerdict(disk) },
      backup: { lastAt: backup?.at ?? null, ...backupVerdict(backup?.at, now) },
    },
    connections: Object.entries(db.pools).map(([name, pool]) => ({
      ...{ name, inUse: pool.totalCount - pool.idleCount, idle: pool.idleCount },
      ...{ waiting: pool.waitingCount, limit: pool.options.max },
      ...(pool.waitingCount > 0 ? say("watch", "Raise DATABASE_POOL_SIZE if this lasts.") : GOOD),
    })),
    replica: { isSet: db.replica !== undefined, isFit: db.replica?.isFit() ?? null },
  };
}

const say = (mark: Verdict["mark"], advice: string): Verdict => ({ mark, advice });

function queueVerdict({ failed, oldestS }: QueueFigures): Verdict {
  if (oldestS > LATE_S) return say("bad", "Look whether a process with RUNS=true is running.");
  return failed > 0 ? say("watch", "Look in the log why this work failed.") : GOOD;
}

function mailVerdict(mail: { waiting: number; failed: number }, isPosted: boolean): Verdict {
  if (!isPosted) return say("watch", "Set SMTP_URL: without it no mail leaves.");
  return mail.failed > 0 ? say("watch", "Look in the log why mails were given up.") : GOOD;
}

interface Disk {
  bytes: number | null;
  freeBytes: number | null;
}

/** Nothing is known of a folder that is not there; readiness says so too. */
async function readDisk(folder: string): Promise<Disk> {
  try {
    const { bsize, blocks, bavail } = await statfs(folder);
    return { bytes: blocks * bsize, freeBytes: bavail * bsize };
  } catch {
    return { bytes: null, freeBytes: null };
  }
}

export function diskVerdict({ bytes, freeBytes }: Disk): Verdict {
  if (bytes === null || freeBytes === null) return say("bad", "DATA_DIR cannot be read; mend it.");
  const advice = "Free space on the disk of DATA_DIR, or move the folder to a larger one.";
  if (freeBytes < bytes * FREE_BAD) return say("bad", advice);
  return freeBytes < bytes * FREE_WATCH ? say("watch", advice) : GOOD;
}

export function backupVerdict(at: string | undefined, now: Date): Verdict {
  if (at === undefined) return say("bad", "Make a backup; none is noted yet.");
  const age = now.getTime() - Date.parse(at);
  if (age > 7 * DAY_MS) return say("bad", "Make a backup; the last is over a week old.");
  return age > 2 * DAY_MS ? say("watch", "Make a backup; the last is over two days old.") : GOOD;
}
