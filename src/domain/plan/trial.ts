// Requirement: a plan is tried before it is published: with made-up answers and facts its author
// sees every verdict, what the gate would say, and which items would not be asked and why.
import type { Answer } from "../acceptance/answer.ts";
import { Judge } from "../acceptance/judge.ts";
import type { Verdict } from "../acceptance/verdict.ts";
import { closeOut, type Fact, type GateResult } from "../closeout/gate.ts";
import type { CompiledItem, CompiledPlan } from "./compile.ts";
import type { JobContext } from "./context.ts";
import type { Subject } from "./subjects.ts";
import { subjectsOf } from "./subjects.ts";

/** What came of one item for one subject. */
export interface TriedItem {
  itemId: string;
  stageId: string;
  title: string;
  subject: string;
  subjectLabel: string;
  holdPoint: boolean;
  safetyCritical: boolean;
  verdict: Verdict;
  /** The expression that said that the item is not asked. */
  notAskedBy?: string;
}

export interface Trial {
  /** One for each item and subject, in the plan's order. */
  items: TriedItem[];
  gate: GateResult;
}

/**
 * Judges made-up answers by a plan as a job's are judged.
 * @param plan compiled from a checked document
 * @param answers to its items; what they name must be in the plan and the context
 * @param context site, units, instruments and the moment of judging
 */
export function tryPlan(
  plan: CompiledPlan,
  answers: readonly Answer[],
  context: JobContext,
): Trial {
  const gate = closeOut(plan, answers, context);
  const judge = new Judge(plan, answers, context);
  const facts = Map.groupBy(gate.facts, ({ itemId }) => itemId);
  const items = plan.items.flatMap((compiled) => {
    const subjects = new Map(judge.subjects(compiled).map((one) => [one.key, one]));
    return (facts.get(compiled.item.id) ?? []).map((fact) =>
      tried(compiled, fact, subjects.get(fact.subject), judge),
    );
  });
  return { items, gate };
}

function tried(
  compiled: CompiledItem,
  fact: Fact,
  subject: Subject | undefined,
  judge: Judge,
): TriedItem {
  const { item, stageId, applies } = compiled;
  const { outcome, clears, code, sentence } = fact;
  const verdict = subject
    ? judge.verdict(compiled, subject)
    : { outcome, clears, code, sentence, attempts: 0 };
  const isAsked = outcome !== "not-applicable";
  return {
    ...{ itemId: item.id, stageId, title: item.title, subject: fact.subject },
    ...{ subjectLabel: subject?.label ?? "", holdPoint: fact.holdPoint },
    ...{ safetyCritical: fact.safetyCritical, verdict },
    ...(isAsked || !applies ? {} : { notAskedBy: applies.text }),
  };
}

/** How many verdicts a trial gives: one for each item and subject, and one where there is none. */
export const verdictsOf = (plan: CompiledPlan, context: Pick<JobContext, "units">): number =>
  plan.items.reduce((sum, { item }) => sum + Math.max(1, subjectsOf(item, context).length), 0);
