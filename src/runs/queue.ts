// The one place that knows pg-boss: scheduled work on the same PostgreSQL, each run done by one
// instance.
import { type ConstructorOptions, PgBoss, type Warning } from "pg-boss";
import { grantQueue } from "../db/queue-grants.ts";

export const QUEUE_SCHEMA = "pgboss";
const POOL_SIZE = 3;
const POLL_S = 2;
const BATCH = 10;
/** A run that died without a word is given up after so long. */
const RUN_S = 600;
const STOP_MS = 20_000;

/** One kind of scheduled work. It may be cut off at any point, and two may overlap. */
export interface Run {
  name: string;
  /** Five-field cron expression, in UTC. */
  cron: string;
  work(): Promise<void>;
}

export interface QueueOptions {
  /** Owner of the tables: makes and upgrades the queue's own. */
  ownerUrl: string;
  /** The application's role, which only works in them. */
  url: string;
  /** Role to step down to, where `url` names a greater one. */
  role?: string;
  onError(error: unknown): void;
  onWarning(warning: Warning): void;
}

export interface RunningQueue {
  isRunning(): boolean;
  /** Lets the runs under way finish, for a while. */
  stop(): Promise<void>;
}

export async function startQueue(
  options: QueueOptions,
  runs: readonly Run[],
): Promise<RunningQueue> {
  await prepareTables(options, runs);
  const boss = open(options, {
    connectionString: options.url,
    max: POOL_SIZE,
    migrate: false,
    createSchema: false,
    // Rebuilding an index takes its owner.
    reindex: false,
    ...(options.role ? { options: `-c role=${options.role}` } : {}),
  });
  await boss.start();
  for (const run of runs) {
    // A run looks at everything there is to do, so several that wait are one.
    const pace = { batchSize: BATCH, pollingIntervalSeconds: POLL_S };
    await boss.work(run.name, pace, () => run.work());
    await boss.schedule(run.name, run.cron);
  }
  let isRunning = true;
  boss.on("stopped", () => {
    isRunning = false;
  });
  return {
    isRunning: () => isRunning,
    stop: async () => {
      isRunning = false;
      await boss.stop({ graceful: true, close: true, timeout: STOP_MS });
    },
  };
}

async function prepareTables(options: QueueOptions, runs: readonly Run[]): Promise<void> {
  const owner = open(options, {
    connectionString: options.ownerUrl,
    max: 2,
    supervise: false,
    schedule: false,
    registerInstance: false,
  });
  try {
    await owner.start();
    for (const { name } of runs) await owner.createQueue(name, QUEUE);
    await grantQueue(options.ownerUrl, QUEUE_SCHEMA);
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message : String(cause);
    throw new Error(
      `The tables of the scheduled work cannot be made: ${reason}. The role that owns the tables ` +
        `needs CREATE on the database for the schema ${QUEUE_SCHEMA}; or set RUNS=false, and no ` +
        "notice or mail goes out from here.",
      { cause },
    );
  } finally {
    await owner.stop({ graceful: false, close: true });
  }
}

// "short": at most one of a name waits, however many instances ask for it; one that was killed at
// work does not hold up the next, as all work here bears a twin.
const QUEUE = { policy: "short", retryLimit: 2, retryDelay: 60, expireInSeconds: RUN_S } as const;

function open(options: QueueOptions, own: ConstructorOptions): PgBoss {
  const boss = new PgBoss({
    schema: QUEUE_SCHEMA,
    application_name: "holdpoint-runs",
    connectionTimeoutMillis: 10_000,
    ...own,
  });
  boss.on("error", options.onError);
  boss.on("warning", options.onWarning);
  return boss;
}
