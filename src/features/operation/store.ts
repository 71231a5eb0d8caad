import type { Database } from "../../db/client.ts";
import { readSchemaState, type SchemaState } from "../../db/schema-state.ts";
import { inFirm } from "../../db/scope.ts";
import { listFirmsForRuns } from "../firms/store.ts";

export interface QueueFigures {
  name: string;
  waiting: number;
  running: number;
  failed: number;
  /** How long the oldest has been due. */
  oldestS: number;
}

/** By name of the scheduled work; none where no queue has been made yet. */
export async function readQueue(db: Database): Promise<QueueFigures[]> {
  const there = await db.pool.query("SELECT to_regclass('pgboss.job') IS NOT NULL AS is_there");
  if (!there.rows[0].is_there) return [];
  const { rows } = await db.pool.query<QueueFigures>(
    `SELECT q.name,
       count(j.id) FILTER (WHERE j.state IN ('created', 'retry'))::int AS waiting,
       count(j.id) FILTER (WHERE j.state = 'active')::int AS running,
       count(j.id) FILTER (WHERE j.state = 'failed')::int AS failed,
       coalesce(greatest(0, extract(epoch FROM now() - min(j.start_after)
         FILTER (WHERE j.state IN ('created', 'retry')))), 0)::float8 AS "oldestS"
     FROM pgboss.queue q LEFT JOIN pgboss.job j ON j.name = q.name
     GROUP BY q.name ORDER BY q.name`,
  );
  return rows;
}

export interface StoreSums {
  mailsWaiting: number;
  mailsFailed: number;
  photoBytes: number;
}

export interface StoreFigures extends StoreSums {
  /** When the last mail of any firm went out. */
  lastSentAt: Date | null;
}

/** Over all firms, each seen alone and once. */
export async function readStore(db: Database): Promise<StoreFigures> {
  const sum: StoreFigures = { mailsWaiting: 0, mailsFailed: 0, photoBytes: 0, lastSentAt: null };
  for (const { id } of await listFirmsForRuns(db)) {
    const [figures] = await inFirm(
      db,
      id,
      (tx) => tx.$queryRaw<StoreFigures[]>`
        SELECT (SELECT count(*) FROM mail WHERE state = 'waiting')::int AS "mailsWaiting",
          (SELECT count(*) FROM mail WHERE state = 'failed')::int AS "mailsFailed",
          (SELECT max(sent_at) FROM mail) AS "lastSentAt",
          (coalesce((SELECT sum(bytes) FROM photo), 0)
            + coalesce((SELECT sum(bytes) FROM job_document), 0))::float8 AS "photoBytes"`,
    );
    sum.mailsWaiting += figures?.mailsWaiting ?? 0;
    sum.mailsFailed += figures?.mailsFailed ?? 0;
    sum.photoBytes += figures?.photoBytes ?? 0;
    sum.lastSentAt = later(sum.lastSentAt, figures?.lastSentAt ?? null);
  }
  return sum;
}

const later = (left: Date | null, right: Date | null): Date | null =>
  left && right && left > right ? left : (right ?? left);

/** @throws when the database does not answer */
export async function askDatabase(db: Database): Promise<void> {
  await db.pool.query("SELECT 1");
}

export const readSchema = (db: Database): Promise<SchemaState> => readSchemaState(db.pool);
