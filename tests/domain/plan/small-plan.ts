// Plans of a few items, for tests.
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { type CompiledPlan, compilePlan } from "../../../src/domain/plan/compile.ts";

export type Draft = Record<string, unknown>;

/** A hold point that always applies, so that a plan of conditional items is one. */
export const CONFIRM: Draft = {
  id: "done",
  kind: "confirm",
  title: "Done",
  do: "Look that it is done",
  holdPoint: true,
};

/** An item with what every item has, and what is given. */
export const draftItem = (more: Draft): Draft => {
  const id = String(more.id ?? "item");
  return { id, title: id, do: `Do ${id}`, holdPoint: true, ...more };
};

/** A document with one stage. */
export const draftPlan = (items: Draft[], more: Draft = {}): Draft => ({
  schema: "plan/1",
  title: "A plan",
  decisionRule: "simple",
  attributes: {},
  stages: [{ id: "all", title: "All", items }],
  ...more,
});

/** The compiled plan of items that must be right. */
export function planOf(items: Draft[], more: Draft = {}): CompiledPlan {
  const checked = checkPlan(draftPlan(items.map(draftItem), more));
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems, null, 1));
  return compilePlan(checked.plan);
}

/** What is wrong with the document, as "pointer code". */
export function faultsOf(document: unknown): string[] {
  const checked = checkPlan(document);
  return checked.ok ? [] : checked.problems.map(({ pointer, code }) => `${pointer} ${code}`);
}
