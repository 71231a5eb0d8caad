// Requirement: a job closes only when every hold point that applies is met or conceded; one that is
// safety-critical cannot be conceded (hold point: ISO 9000 family, inspection and test plans;
// concession: ISO 9000). The result depends on nothing but its arguments, in whatever order answers
// come.
import type { Answer } from "../acceptance/answer.ts";
import { Judge } from "../acceptance/judge.ts";
import { NOBODY } from "../acceptance/surroundings.ts";
import type { Outcome, Verdict } from "../acceptance/verdict.ts";
import type { CompiledItem, CompiledPlan } from "../plan/compile.ts";
import type { JobContext } from "../plan/context.ts";
import type { Subject } from "../plan/subjects.ts";
import { verdictOnNobody } from "./no-subjects.ts";

/** Raised whenever the same facts could give another result than before. */
export const RULE_VERSION = "gate/1";

/** What was found for one item and subject: one for each, met or not. */
export interface Fact {
  itemId: string;
  subject: string;
  holdPoint: boolean;
  safetyCritical: boolean;
  outcome: Outcome;
  clears: boolean;
  code: string;
  sentence: string;
  answerId?: string;
  concessionId?: string;
}

/** Why the job stays open, and the way out. */
export interface Blocker {
  itemId: string;
  stageId: string;
  subject: string;
  subjectLabel: string;
  unitId?: string;
  code: string;
  title: string;
  sentence: string;
  toClear: string;
  safetyCritical: boolean;
  concedable: boolean;
}

export interface GateStats {
  /** Items of the plan, and facts: one for each item and subject. */
  items: number;
  facts: number;
  /** Facts of hold points that apply, and how many of them are met or conceded. */
  holdPoints: number;
  holdPointsMet: number;
  conceded: number;
}

export interface GateResult {
  open: boolean;
  /** In the plan's order. */
  blockers: Blocker[];
  facts: Fact[];
  ruleVersion: string;
  stats: GateStats;
}

/**
 * Decides whether a job may be closed.
 * @param plan compiled from the plan version the job is pinned to
 * @param answers every answer of the job; the last of each item and subject counts
 * @param context site, units, instruments, concessions, photos and the time, as they stand
 */
export function closeOut(
  plan: CompiledPlan,
  answers: readonly Answer[],
  context: JobContext,
): GateResult {
  const judge = new Judge(plan, answers, context);
  const facts: Fact[] = [];
  const blockers: Blocker[] = [];
  for (const compiled of plan.items) {
    const subjects = judge.subjects(compiled);
    if (subjects.length === 0) {
      note(compiled, NOBODY, verdictOnNobody(judge, compiled), facts, blockers);
    }
    for (const subject of subjects)
      note(compiled, subject, judge.verdict(compiled, subject), facts, blockers);
  }
  const stats = statsOf(plan, facts);
  return { open: blockers.length === 0, blockers, facts, ruleVersion: RULE_VERSION, stats };
}

function statsOf(plan: CompiledPlan, facts: readonly Fact[]): GateStats {
  const stats = {
    items: plan.items.length,
    facts: facts.length,
    holdPoints: 0,
    holdPointsMet: 0,
    conceded: 0,
  };
  for (const { outcome, holdPoint, clears } of facts) {
    if (outcome === "conceded") stats.conceded += 1;
    if (!holdPoint || outcome === "not-applicable") continue;
    stats.holdPoints += 1;
    if (clears) stats.holdPointsMet += 1;
  }
  return stats;
}

function note(
  compiled: CompiledItem,
  subject: Subject,
  verdict: Verdict,
  facts: Fact[],
  blockers: Blocker[],
): void {
  const { item, holdPoint, stageId } = compiled;
  const safetyCritical = item.safetyCritical === true;
  const { outcome, clears, code, sentence, answerId, concessionId } = verdict;
  const about = { itemId: item.id, subject: subject.key, holdPoint, safetyCritical };
  const fact: Fact = { ...about, outcome, clears, code, sentence };
  if (answerId !== undefined) fact.answerId = answerId;
  if (concessionId !== undefined) fact.concessionId = concessionId;
  facts.push(fact);
  if (clears || !holdPoint) return;
  blockers.push({
    itemId: item.id,
    stageId,
    subject: subject.key,
    subjectLabel: subject.label,
    code,
    title: item.title,
    sentence,
    toClear: verdict.toClear ?? item.do,
    safetyCritical,
    concedable: !safetyCritical && code !== "no-subjects",
    ...(subject.unit ? { unitId: subject.unit.id } : {}),
  });
}
