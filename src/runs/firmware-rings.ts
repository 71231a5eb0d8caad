import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { decideRings, type RingDecision } from "../features/firmware/roll-out.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";

/** Stops rings whose failures say so, and lets those pass that have waited long enough. */
export async function decideAllRings(
  db: Database,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<RingDecision[]> {
  const decisions: RingDecision[] = [];
  await eachFirm(db, onFailure, async ({ id }) => {
    decisions.push(...(await inFirm(db, id, (tx) => decideRings(tx, now))));
  });
  return decisions;
}
