// A snag is told in free words, which may name people; the ledger holds their salted hash instead.
import type { FirmTransaction } from "../../db/scope.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { lockJob } from "../jobs/store.ts";
import type { Origin } from "../ledger/origin.ts";
import { appendToLedger } from "../ledger/store.ts";
import { addSnag, editSnag, findSnag, type SnagFields } from "./store.ts";

export type SnagRow = NonNullable<Awaited<ReturnType<typeof findSnag>>>;

/** Snags are found after the hand-over too, so a closed job takes them, and a cancelled one not. */
export async function raiseSnag(
  tx: FirmTransaction,
  jobId: string,
  fields: SnagFields,
  personId: string,
  now: Date,
  origin?: Origin,
): Promise<SnagRow> {
  const job = await lockJob(tx, jobId);
  if (!job) throw notFound("job");
  if (job.state === "cancelled") {
    throw new Problem(
      "conflict",
      `${job.reference} was cancelled. Raise the snag on the job that mends it.`,
    );
  }
  const own = origin ? { id: origin.opId } : {};
  const row = await addSnag(tx, { ...fields, ...own, jobId, raisedById: personId }, now);
  const body = { personId, snagId: row.id, text: wordsOf(row), ...origin };
  await appendToLedger(tx, jobId, { kind: "snag.raised", body, at: now });
  return row;
}

export async function changeSnag(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<SnagFields>,
  personId: string,
  now: Date,
): Promise<SnagRow> {
  const before = await readSnag(tx, id);
  if (before.state === "mended") {
    throw new Problem("conflict", "The snag is mended. Raise a new one for what is left.");
  }
  if (!(await editSnag(tx, id, version, change))) throw editedMeanwhile();
  const row = await readSnag(tx, id);
  const body = { personId, snagId: id, text: wordsOf(row) };
  await appendToLedger(tx, row.jobId, { kind: "snag.edited", body, at: now });
  return row;
}

export async function readSnag(tx: FirmTransaction, id: string): Promise<SnagRow> {
  const row = await findSnag(tx, id);
  if (!row) throw notFound("snag");
  return row;
}

const wordsOf = ({ title, detail }: SnagRow): string => canonicalize({ title, detail });
