import type { Fact } from "../../domain/closeout/gate.ts";
import { subjectsOf } from "../../domain/plan/subjects.ts";
import type { EvaluatedJob } from "../close-out/evaluate.ts";
import { toContext } from "../job-record/context.ts";
import { attemptOf, type Shown } from "./attempts.ts";
import { markOf } from "./marks.ts";

/** Earlier attempts shown on the page itself; all of them stand on the page of readings. */
const EARLIER_MOST = 3;
const SUBJECTS_SHOWN = 12;

/**
 * Stages with their items, each item with what was found for every subject of it. A closed job
 * shows what it was closed on: what is found of an instrument later does not rewrite it.
 */
export function stagesOf(
  { plan, record, result }: EvaluatedJob,
  closedOn: readonly Fact[] | undefined,
  shown: Shown,
) {
  const context = toContext(record, new Date(0));
  const facts = Map.groupBy(closedOn ?? result.facts, (fact) => fact.itemId);
  const answers = Map.groupBy(record.answers, ({ itemId, subject }) => `${itemId} ${subject}`);
  const stages = plan.plan.stages.map((stage) => {
    const items = stage.items.map((item) => {
      const all = facts.get(item.id) ?? [];
      const told = mostTelling(all);
      const labels = new Map(subjectsOf(item, context).map(({ key, label }) => [key, label]));
      return {
        id: item.id,
        title: item.title,
        holdPoint: plan.byId.get(item.id)?.holdPoint,
        safetyCritical: item.safetyCritical,
        hidden: all.length - told.length,
        found: told.map((fact) => ({
          ...foundOf(fact, labels, shown),
          ...attempts(answers.get(`${item.id} ${fact.subject}`) ?? [], record, shown),
        })),
      };
    });
    const standing = standingOf(items.flatMap((item) => facts.get(item.id) ?? []));
    return { id: stage.id, title: stage.title, items, ...standing };
  });
  // What is being worked on, and what comes next; the rest is one tap away.
  const next = stages.find(({ open }) => open > 0);
  return stages.map((stage) => ({
    ...stage,
    isUnfolded: stage.open > 0 && (stage.done > 0 || stage === next),
  }));
}

/** Of an item asked for many units first what is not met; the rest stands among the readings. */
function mostTelling(facts: readonly Fact[]): readonly Fact[] {
  if (facts.length <= SUBJECTS_SHOWN) return facts;
  const inOrder = facts.toSorted((left, right) => Number(left.clears) - Number(right.clears));
  const told = new Set(inOrder.slice(0, SUBJECTS_SHOWN));
  return facts.filter((fact) => told.has(fact));
}

function foundOf(fact: Fact, labels: ReadonlyMap<string, string>, shown: Shown) {
  const { itemId, subject, outcome, sentence } = fact;
  return {
    ...markOf(outcome, shown.language),
    label: labels.get(subject),
    sentence,
    doubt: doubtOf(fact, shown.doubts),
    query: new URLSearchParams({ itemId, subject }).toString(),
  };
}

function standingOf(facts: readonly Fact[]) {
  const open = facts.filter(
    ({ holdPoint, clears, outcome }) =>
      holdPoint && !clears && outcome !== "not-applicable" && outcome !== "conceded",
  );
  const done = facts.filter(({ outcome }) => outcome !== "missing").length;
  return { open: open.length, done, asked: facts.length };
}

function attempts(
  answers: EvaluatedJob["record"]["answers"],
  record: EvaluatedJob["record"],
  shown: Shown,
) {
  const last = answers.at(-1);
  return {
    last: last && attemptOf(last, record, shown),
    count: answers.length,
    more: answers.length - 1 > EARLIER_MOST,
    earlier: answers
      .slice(0, -1)
      .slice(-EARLIER_MOST)
      .map((answer) => attemptOf(answer, record, shown)),
  };
}

function doubtOf({ answerId, outcome }: Fact, doubts: ReadonlyMap<string, string>) {
  return answerId === undefined || outcome === "stale-instrument"
    ? undefined
    : doubts.get(answerId);
}
