import type { FirmTransaction } from "../../db/scope.ts";
import { diffPlans, type PlanDiff } from "../../domain/plan/diff.ts";
import type { ChangeWeight } from "../../domain/plan/diff-change.ts";
import type { Plan } from "../../domain/plan/schema.ts";
import { readPlan as readShape } from "../../domain/plan/shape-check.ts";
import { invalid, Problem } from "../../errors.ts";
import { documentOf, readPlan, readVersion } from "./keep-plan.ts";
import { countOpenJobs, type PlanRow, type PlanVersionRow } from "./store.ts";

export interface ComparedVersions extends PlanDiff {
  plan: PlanRow;
  planId: string;
  from: number;
  to: number;
  weights: Record<ChangeWeight, number>;
  openJobs: { onEarlier: number; onLater: number; sentence: string };
}

/**
 * What a version changes against an earlier or later one. A draft may still have faults, but not
 * ones of shape.
 * @param from the other version; the one before if left out
 */
export async function compareVersions(
  tx: FirmTransaction,
  { planId, number, from }: { planId: string; number: number; from: number | undefined },
): Promise<ComparedVersions> {
  const plan = await readPlan(tx, planId);
  const later = await readVersion(tx, { planId, number });
  const other = from ?? plan.versions.find((version) => version.number < number)?.number;
  if (other === undefined) {
    throw invalid("/query/from", `Version ${number} is the first; name one to compare it with.`);
  }
  const earlier = await readVersion(tx, { planId, number: other });
  const diff = diffPlans(planOf(earlier), planOf(later));
  const weights = { stricter: 0, looser: 0, different: 0, wording: 0 };
  for (const { weight } of diff.changes) weights[weight] += 1;
  const jobs = await countOpenJobs(tx, [earlier.id, later.id]);
  const [onEarlier, onLater] = [jobs.get(earlier.id) ?? 0, jobs.get(later.id) ?? 0];
  const sentence = openJobsSentence(onEarlier, other);
  return {
    ...{ plan, planId, from: other, to: number, ...diff, weights },
    openJobs: { onEarlier, onLater, sentence },
  };
}

function planOf(version: PlanVersionRow): Plan {
  const read = readShape(documentOf(version));
  if (read.ok) return read.plan;
  const { problems } = read;
  const fault = problems[0]?.sentence;
  const sentence = `The document of version ${version.number} is no plan yet: ${fault}`;
  throw new Problem("plan-invalid", sentence, {
    errors: problems.map(({ pointer, code, sentence: detail }) => ({ pointer, code, detail })),
  });
}

function openJobsSentence(jobs: number, version: number): string {
  if (jobs === 0) return `No open job works by version ${version}.`;
  const stay = jobs === 1 ? "1 open job stays" : `${jobs} open jobs stay`;
  return `${stay} with version ${version}; only jobs opened after publication take the new one.`;
}
