// Requirement: whoever is to publish, or to work by, a new version of a plan sees what it changes:
// each change with its place, its weight, whom it concerns and one sentence (ISO 9001 8.5.6, from
// memory: changes to what controls the work are reviewed and their results kept).

/**
 * stricter: accepts less or asks for more. looser: accepts more or asks for less. different:
 * neither can be told. wording: the same is asked and accepted, in other words or another form.
 */
export const CHANGE_WEIGHTS = ["stricter", "looser", "different", "wording"] as const;
export type ChangeWeight = (typeof CHANGE_WEIGHTS)[number];

export const CHANGE_KINDS = ["added", "removed", "moved", "renamed", "changed"] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number];

export const CONCERNS = ["installer", "office", "manager"] as const;
/** installer: what to do on site; office: what to bring; manager: what may be conceded. */
export type Concern = (typeof CONCERNS)[number];

export interface PlanChange {
  of: "plan" | "stage" | "item";
  kind: ChangeKind;
  /** Where it is now, or, when removed, where it was. */
  stageId?: string;
  itemId?: string;
  /** Name of the field, of a change to one. */
  field?: string;
  /** What stood there, and what stands there now, as in the documents. */
  before?: unknown;
  after?: unknown;
  weight: ChangeWeight;
  concerns: readonly Concern[];
  sentence: string;
}

export interface PlanDiff {
  changes: PlanChange[];
  /** Classes of instruments that one version asks for and the other does not, by name. */
  instruments: { toBring: string[]; noLonger: string[] };
}

/** Says of two things which one asks for more, by what one has beyond the other. */
export function weightOf(hasMore: boolean, hasLess: boolean): ChangeWeight {
  if (hasMore && hasLess) return "different";
  if (hasMore) return "stricter";
  return hasLess ? "looser" : "wording";
}

/** The weight of a set of demands: more of them is stricter. */
export function weightOfDemands(
  before: readonly string[] = [],
  after: readonly string[] = [],
): ChangeWeight {
  const [old, now] = [new Set(before), new Set(after)];
  return weightOf(
    after.some((one) => !old.has(one)),
    before.some((one) => !now.has(one)),
  );
}

/** The weight of several weights together. */
export function joinedWeight(weights: readonly ChangeWeight[]): ChangeWeight {
  if (weights.includes("different")) return "different";
  return weightOf(weights.includes("stricter"), weights.includes("looser"));
}
