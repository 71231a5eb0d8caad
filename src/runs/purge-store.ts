// What is over is removed a batch at a time, so that no lock is held long.
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";

const BATCH = 1000;

/** Replies kept for repeats of requests; how many were removed, at most a batch. */
export async function purgeReplies(db: Database, firmId: string, before: Date): Promise<number> {
  return inFirm(
    db,
    firmId,
    (tx) => tx.$executeRaw`
      DELETE FROM idempotency_key WHERE firm_id = ${firmId}::uuid AND (person_id, key) IN (
        SELECT person_id, key FROM idempotency_key
        WHERE firm_id = ${firmId}::uuid AND created_at < ${before} LIMIT ${BATCH})`,
  );
}

/** Sessions that have run out; how many were removed, at most a batch. */
export async function purgeSessions(db: Database, firmId: string, before: Date): Promise<number> {
  return inFirm(
    db,
    firmId,
    (tx) => tx.$executeRaw`
      DELETE FROM session WHERE firm_id = ${firmId}::uuid AND id IN (
        SELECT id FROM session
        WHERE firm_id = ${firmId}::uuid AND expires_at < ${before} LIMIT ${BATCH})`,
  );
}

/** Counts of failed sign-ins, which belong to no firm; at most a batch. */
export async function purgeThrottle(db: Database, before: Date): Promise<number> {
  return db.prisma.$executeRaw`
    DELETE FROM sign_in_throttle WHERE key IN (
      SELECT key FROM sign_in_throttle WHERE window_start < ${before} LIMIT ${BATCH})`;
}
