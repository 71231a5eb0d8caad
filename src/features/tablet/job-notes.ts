import type { FirmTransaction } from "../../db/scope.ts";
import { listBrokenChains } from "./difference-store.ts";
import { differencesOf } from "./differences.ts";
import { countUndecided } from "./held-store.ts";

/** What a job's page tells about the tablets that worked on it. */
export async function tabletNotes(tx: FirmTransaction, jobId: string) {
  const differences = await differencesOf(tx, jobId);
  const heldCount = await countUndecided(tx, jobId);
  const { length: brokenCount } = await listBrokenChains(tx, jobId);
  return { differences, heldCount, brokenCount };
}
