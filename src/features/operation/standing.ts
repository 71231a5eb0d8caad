// How the service stands, for whoever runs it: figures, and what to do about those that are amiss.
import { readFileSync } from "node:fs";
import { statfs } from "node:fs/promises";
import { lastBackups } from "../../backups-made.ts";
import type { Config } from "../../config.ts";
import type { Database } from "../../db/client.ts";
import type { SchemaState } from "../../db/schema-state.ts";
import type { Readiness } from "./readiness.ts";
import { readDatabaseFigures } from "./standing-store.ts";
import { readQueue, readStore } from "./store.ts";
import {
  backupVerdict,
  type Disk,
  diskVerdict,
  mailVerdict,
  poolVerdict,
  queueVerdict,
} from "./verdicts.ts";

export interface StandingGround {
  db: Database;
  config: Config;
  now: Date;
  /** Told of what could not be read although it should. */
  failed(error: unknown): void;
}

const { version: VERSION } = JSON.parse(
  readFileSync(new URL("../../../package.json", import.meta.url), "utf8"),
) as { version: string };

export type Known = Awaited<ReturnType<typeof readKnown>>;
export type Inside = Awaited<ReturnType<typeof readInside>>;

export interface Standing {
  /** What is known though the database be away. */
  known: Known;
  /** What the database tells; undefined where it does not. */
  inside: Inside | undefined;
}

export async function readStanding(
  ground: StandingGround,
  readiness: Readiness,
): Promise<Standing> {
  const known = await readKnown(ground, readiness);
  if (readiness.reasons.some(({ check }) => check === "database")) {
    return { known, inside: undefined };
  }
  try {
    return { known, inside: await readInside(ground, readiness.schema) };
  } catch (error) {
    ground.failed(error);
    return { known, inside: undefined };
  }
}

async function readKnown({ db, config, now, failed }: StandingGround, { reasons }: Readiness) {
  const disk = await readDisk(config.dataFolder);
  const [backup] = await lastBackups(config.dataFolder, 1).catch((error: unknown) => {
    failed(error);
    return [];
  });
  const uptimeS = Math.floor(process.uptime());
  return {
    ready: { isReady: reasons.length === 0, reasons },
    versions: { service: VERSION, node: process.versions.node, uptimeS },
    storage: {
      hasBucket: config.PHOTO_BUCKET_URL !== undefined,
      disk: { ...disk, ...diskVerdict(disk) },
      backup: { lastAt: backup?.at ?? null, ...backupVerdict(backup?.at, now) },
    },
    connections: Object.entries(db.pools).map(([name, pool]) => ({
      ...{ name, inUse: pool.totalCount - pool.idleCount, idle: pool.idleCount },
      ...{ waiting: pool.waitingCount, limit: pool.options.max },
      ...poolVerdict(pool.waitingCount),
    })),
    replica: { isSet: db.replica !== undefined, isFit: db.replica?.isFit() ?? null },
  };
}

async function readInside({ db, config }: StandingGround, schema: SchemaState | undefined) {
  const { version: postgresql, ...database } = await readDatabaseFigures(db);
  const { mailsWaiting, mailsFailed, photoBytes, lastSentAt } = await readStore(db);
  const mail = { waiting: mailsWaiting, failed: mailsFailed };
  const isPosted = config.SMTP_URL !== undefined;
  return {
    versions: {
      ...{ postgresql, schemaExpected: schema?.expected ?? null },
      ...{ schemaFound: schema?.found ?? null, pending: schema?.pending ?? [] },
    },
    queues: (await readQueue(db)).map((queue) => ({ ...queue, ...queueVerdict(queue) })),
    mail: {
      ...{ ...mail, lastSentAt: lastSentAt?.toISOString() ?? null, isPosted },
      ...mailVerdict(mail, isPosted),
    },
    storage: { database, photoBytes },
  };
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
