import { transactionQuery } from "../../db/query.ts";
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
  const query = transactionQuery(tx);
  const record = await readJobRecord(query, tx.firmId, jobId, options);
  if (!record) return undefined;
  const plan = await compiledPlan(query, tx.firmId, record.job.planVersionId);
  const context = toContext(record, now);
  const result = closeOut(plan, toAnswers(record.answers), context);
  return { record, plan, context, result };
}
