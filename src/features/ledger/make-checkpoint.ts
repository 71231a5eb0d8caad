import type { FirmTransaction } from "../../db/scope.ts";
import { CheckpointReplay, makeCheckpoint } from "../../domain/evidence/checkpoint.ts";
import {
  addCheckpoint,
  checkpointsAfter,
  lastCheckpointDay,
  ledgerHeads,
  lockCheckpoints,
} from "./checkpoint-store.ts";

const CHECKPOINTS_A_PAGE = 100;

/**
 * Hashes all heads of the firm's ledger, once a day. Undefined when that day, or a later one, has
 * its checkpoint. Throws when those before do not replay: nothing is chained on to a broken chain.
 */
export async function makeFirmCheckpoint(tx: FirmTransaction, day: string, now: Date) {
  await lockCheckpoints(tx);
  const last = await lastCheckpointDay(tx);
  if (last !== undefined && last >= day) return undefined;
  const replay = new CheckpointReplay();
  const problem = await replayCheckpoints(tx, replay);
  if (problem) throw new Error(problem);
  const heads = await ledgerHeads(tx);
  const fields = { at: now.toISOString(), day, firm: tx.firmId };
  const made = makeCheckpoint(fields, heads, { replay });
  await addCheckpoint(tx, { day, ...made });
  return made;
}

/** Replays all checkpoints of the firm into `replay`; what is wrong with the first bad one. */
export async function replayCheckpoints(
  tx: FirmTransaction,
  replay: CheckpointReplay,
): Promise<string | undefined> {
  for (;;) {
    const page = { after: replay.length, most: CHECKPOINTS_A_PAGE };
    const stored = await checkpointsAfter(tx, page);
    for (const checkpoint of stored) {
      const problem = replay.take(checkpoint);
      if (problem) return problem;
    }
    if (stored.length < CHECKPOINTS_A_PAGE) return undefined;
  }
}
