// Two versions of a small plan, for tests of what a new version changes.
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { diffPlans, type PlanChange } from "../../../src/domain/plan/diff.ts";
import type { Plan } from "../../../src/domain/plan/schema.ts";
import { CONFIRM, type Draft, draftItem, draftPlan } from "./small-plan.ts";

/** The plan of a document that must be right. */
export function checked(document: Draft): Plan {
  const result = checkPlan(document);
  if (!result.ok) throw new Error(JSON.stringify(result.problems, null, 1));
  return result.plan;
}

/** A measured voltage; the fields of the test replace these. */
export const VOLTAGE: Draft = {
  ...{ id: "volts", kind: "measure", title: "Volts", unit: "V" },
  ...{ limit: { min: 10, max: 20 }, instrument: { class: "multimeter" } },
};

const OTHERS: Draft[] = [
  CONFIRM,
  { id: "first", kind: "confirm", title: "First" },
  { id: "second", kind: "confirm", title: "Second" },
];

/** What changes where one item takes the place of another. */
export function itemDiff(before: Draft, after: Draft, attributes: Draft = {}): PlanChange[] {
  const plan = (item: Draft) =>
    checked(draftPlan([...OTHERS, item].map(draftItem), { attributes }));
  return diffPlans(plan(before), plan(after)).changes;
}

/** What changes where fields of an item do: "field weight". */
export const weights = (base: Draft, before: Draft, after: Draft, attributes?: Draft): string[] =>
  itemDiff({ ...base, ...before }, { ...base, ...after }, attributes).map(
    ({ field, kind, weight }) => `${field ?? kind} ${weight}`,
  );

/** A plan of stages, each with plain items. */
export const stagedPlan = (stages: Record<string, string[]>, more: Draft = {}): Plan =>
  checked({
    ...draftPlan([]),
    stages: Object.entries(stages).map(([id, items]) => ({
      ...{ id, title: id.toUpperCase() },
      items: items.map((item) => draftItem({ id: item, kind: "confirm" })),
    })),
    ...more,
  });
