// Faults of one item in a small plan, for tests of the check.
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { CONFIRM, type Draft, draftItem, draftPlan, faultsOf } from "./small-plan.ts";

export const MEASURE: Draft = { id: "volts", kind: "measure", unit: "V", limit: { min: 38 } };

/** Faults of an item beside one that is always asked. */
export const faultsOfItem = (item: Draft, more: Draft = {}): string[] =>
  faultsOf(draftPlan([CONFIRM, draftItem(item)], more)).map((fault) =>
    fault.replace("/stages/0/items/1", "…"),
  );

/** What is said of the first fault of a document. */
export const sentenceOf = (document: unknown): string => {
  const checked = checkPlan(document);
  return checked.ok ? "" : (checked.problems[0]?.sentence ?? "");
};
