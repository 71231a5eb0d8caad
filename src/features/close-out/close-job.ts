// The close-out: evaluated, written to the ledger, stored and closed in one transaction, or refused
// with every blocker. What happens to the units is part of it: a proven installation makes them
// installed.
import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Blocker } from "../../domain/closeout/gate.ts";
import { sealFacts } from "../../domain/evidence/sealed-facts.ts";
import { notFound, Problem } from "../../errors.ts";
import { tellUpdated } from "../firmware/tell-updated.ts";
import type { Origin } from "../ledger/origin.ts";
import { appendToLedger } from "../ledger/store.ts";
import { noteFailedUpdates } from "../nonconformances/note-failed-updates.ts";
import { cancelVisitsToCome } from "../visits/bookings-store.ts";
import { raiseEvent } from "../webhooks/raise-event.ts";
import { type EvaluatedJob, evaluateJob } from "./evaluate.ts";
import { moveUnits } from "./move-units.ts";
import { closeJob, readJob, reopenJob } from "./store.ts";

export type CloseResult =
  | { closed: true; closeOut: Awaited<ReturnType<typeof closeJob>> }
  | { closed: false; reference: string; blockers: Blocker[] };

export async function closeOutJob(
  tx: FirmTransaction,
  jobId: string,
  personId: string,
  now: Date,
  origin?: Origin,
): Promise<CloseResult> {
  const evaluated = await evaluateJob(tx, jobId, now, { lock: true });
  if (!evaluated) throw notFound("job");
  const { record, result } = evaluated;
  const { job } = record;
  if (job.state !== "open") {
    throw new Problem("job-not-open", `${job.reference} is ${job.state} already.`);
  }
  if (!result.open) return { closed: false, reference: job.reference, blockers: result.blockers };
  await moveUnits(tx, record, personId, now);
  await noteFailedUpdates(tx, jobId, { personId, now });
  await tellUpdated(tx, jobId, now);
  const closeOut = await keepCloseOut(tx, evaluated, personId, now, origin);
  await cancelVisitsToCome(tx, jobId, now);
  const { id, reference, kind } = job;
  await raiseEvent(tx, { kind: "job.closed", data: { jobId: id, reference, kind } }, now);
  return { closed: true, closeOut };
}

/** The ledger's word first, then the evaluation that names it, then the job that rests on both. */
async function keepCloseOut(
  tx: FirmTransaction,
  { record, context, result }: EvaluatedJob,
  personId: string,
  now: Date,
  origin?: Origin,
) {
  const { id: jobId, planVersionId } = record.job;
  const { facts, ruleVersion } = result;
  const id = uuidv7();
  // The facts that the verdicts rest on go with them, so that a stranger can judge again.
  const sealed = sealFacts(context, record.lastOrder);
  const evaluated = { closeOutId: id, context: sealed, facts, planVersionId, ruleVersion };
  const body = { ...evaluated, personId, ...origin };
  const head = await appendToLedger(tx, jobId, { kind: "job.closed", at: now, body });
  const evaluation = {
    jobId,
    planVersionId,
    ruleVersion,
    facts,
    answersThrough: record.lastOrder,
    ledgerSeq: head.seq,
    ledgerSha256: head.sha256,
    closedById: personId,
  };
  return closeJob(tx, id, evaluation, now);
}

/** Opens a closed job again; who and why is on the record for good. */
export async function reopen(
  tx: FirmTransaction,
  jobId: string,
  personId: string,
  reason: string,
  now: Date,
) {
  const job = await readJob(tx, jobId);
  if (!job) throw notFound("job");
  if (job.state !== "closed" || job.closeOutId === null) {
    throw new Problem(
      "conflict",
      `${job.reference} is ${job.state}; only a closed job is reopened.`,
    );
  }
  const { closeOutId } = job;
  const head = await appendToLedger(tx, jobId, {
    kind: "job.reopened",
    at: now,
    body: { closeOutId, personId, reason },
  });
  return reopenJob(
    tx,
    { jobId, closeOutId, reason, reopenedById: personId, ledgerSeq: head.seq },
    now,
  );
}
