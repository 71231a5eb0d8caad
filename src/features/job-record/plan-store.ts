// A published plan never changes, so it is read and compiled once per process and then remembered.
import type { Query } from "../../db/query.ts";
import { checkPlan } from "../../domain/plan/check.ts";
import { type CompiledPlan, compilePlan } from "../../domain/plan/compile.ts";
import { unreadablePlan } from "../plans/stored-plan.ts";

const KEPT_MOST = 200;
const kept = new Map<string, CompiledPlan>();

export async function compiledPlan(
  query: Query,
  firmId: string,
  planVersionId: string,
): Promise<CompiledPlan> {
  const key = `${firmId}:${planVersionId}`;
  const known = kept.get(key);
  if (known) return known;
  const [rows] = (await query({
    text: `SELECT document FROM plan_version
      WHERE firm_id = $1::uuid AND id = $2::uuid AND state = 'published'`,
    values: [firmId, planVersionId],
  })) as [{ document: unknown }[]];
  const checked = checkPlan(rows[0]?.document);
  if (!checked.ok) throw unreadablePlan();
  const compiled = compilePlan(checked.plan);
  if (kept.size >= KEPT_MOST) kept.delete(kept.keys().next().value ?? "");
  kept.set(key, compiled);
  return compiled;
}

const plansOfJobs = new Map<string, string>();
const JOBS_KEPT_MOST = 20_000;

/** The compiled plan that the job is pinned to; undefined when the firm has no such job. */
export async function planOfJob(
  query: Query,
  firmId: string,
  jobId: string,
): Promise<CompiledPlan | undefined> {
  const key = `${firmId}:${jobId}`;
  let planVersionId = plansOfJobs.get(key);
  if (planVersionId === undefined) {
    const [rows] = (await query({
      text: `SELECT plan_version_id AS "planVersionId" FROM job
        WHERE firm_id = $1::uuid AND id = $2::uuid`,
      values: [firmId, jobId],
    })) as [{ planVersionId: string }[]];
    planVersionId = rows[0]?.planVersionId;
    if (planVersionId === undefined) return undefined;
    if (plansOfJobs.size >= JOBS_KEPT_MOST) plansOfJobs.clear();
    plansOfJobs.set(key, planVersionId);
  }
  return compiledPlan(query, firmId, planVersionId);
}
