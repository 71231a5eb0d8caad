// What office and crew tell each other stands beside the record and not in it: no ledger entry, so
// that talk after a close-out does not look like a change of what was closed.
import type { FirmTransaction } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { lockJob } from "../jobs/store.ts";
import { addMessage, type MessageRow, markSeen, type NewMessageRow } from "./store.ts";

export async function writeMessage(
  tx: FirmTransaction,
  message: NewMessageRow,
  now: Date,
): Promise<MessageRow> {
  if (!(await lockJob(tx, message.jobId))) throw notFound("job");
  return addMessage(tx, message, now);
}

export async function readThrough(
  tx: FirmTransaction,
  jobId: string,
  personId: string,
  through: number,
): Promise<void> {
  if (!(await lockJob(tx, jobId))) throw notFound("job");
  await markSeen(tx, jobId, personId, through);
}
