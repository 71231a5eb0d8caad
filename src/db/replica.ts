// A second server that follows the first (PostgreSQL's streaming replication) and answers the
// reads of lists and exports, as long as it keeps up. Nothing is written there and nothing that a
// decision rests on is read there: what it shows may be some seconds old.
import type pg from "pg";
import type { Database, Replica } from "./client.ts";

/** As old as a replica's rows may be; beyond that the first server is asked again. */
const BEHIND_MOST_MS = 10_000;
const LOOK_EVERY_MS = 2_000;

export type ReplicaWatch = (isFit: boolean) => void;

/** Looks every two seconds how far the replica is; unfit until the first look. */
export function followReplica(
  first: Database,
  replica: Database,
  watch?: ReplicaWatch,
  behindMostMs = BEHIND_MOST_MS,
): Replica {
  const written: { place: string; at: number }[] = [];
  let fit = false;
  const look = async (): Promise<void> => {
    const isFit = await keepsUp(first.pool, replica.pool, written, behindMostMs).catch(() => false);
    if (isFit !== fit) watch?.(isFit);
    fit = isFit;
  };
  let looking = look();
  const timer = setInterval(() => {
    looking = looking.then(look);
  }, LOOK_EVERY_MS).unref();
  return {
    db: replica,
    isFit: () => fit,
    close: async () => {
      clearInterval(timer);
      await looking;
      await replica.close();
    },
  };
}

/** Notes how far the first has written, and asks whether the replica is past what is too old. */
async function keepsUp(
  first: pg.Pool,
  replica: pg.Pool,
  written: { place: string; at: number }[],
  behindMostMs: number,
): Promise<boolean> {
  const now = Date.now();
  const standing = await first.query<{ place: string }>(
    "SELECT pg_current_wal_flush_lsn()::text AS place",
  );
  written.push({ place: standing.rows[0]?.place ?? "0/0", at: now });
  while (written.length > 1 && (written[1]?.at ?? now) <= now - behindMostMs) written.shift();
  const { rows } = await replica.query<{ follows: boolean }>(
    `SELECT pg_is_in_recovery() AND pg_last_wal_replay_lsn() >= $1::pg_lsn AS follows`,
    [written[0]?.place],
  );
  return rows[0]?.follows === true;
}
