import { type Query, transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { closeOut, type GateResult } from "../../domain/closeout/gate.ts";
import type { CompiledPlan } from "../../domain/plan/compile.ts";
import type { JobContext } from "../../domain/plan/context.ts";
import { toAnswers, toContext } from "../job-record/context.ts";
import { compiledPlan } from "../job-record/plan-store.ts";
import { type JobRecord, readJobRecord } from "../job-record/store.ts";

export interface EvaluatedJob {
  record: JobRecord;
  plan: CompiledPlan;
  /** The facts that the result rests on. */
  context: JobContext;
  result: GateResult;
}

/** Puts the whole job before the gate; undefined when the firm has no such job. */
export async function evaluateJob(
  tx: FirmTransaction,
  jobId: string,
  now: Date,
  options: { lock: boolean },
): Promise<EvaluatedJob | undefined> {
  return evaluateBy(transactionQuery(tx), tx.firmId, jobId, now, options);
}

/** The same through whichever door: several jobs asked side by side travel together. */
export async function evaluateBy(
  query: Query,
  firmId: string,
  jobId: string,
  now: Date,
  options: { lock: boolean },
): Promise<EvaluatedJob | undefined> {
  const record = await readJobRecord(query, firmId, jobId, options);
  if (!record) return undefined;
  const plan = await compiledPlan(query, firmId, record.job.planVersionId);
  const context = toContext(record, now);
  const result = closeOut(plan, toAnswers(record.answers), context);
  return { record, plan, context, result };
}
