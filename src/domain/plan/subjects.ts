// Requirement: what is asked per unit, per fastener group or a number of times is asked for every
// one of them. CEL's all() is true of nothing at all, so a set with no member is never taken as
// met.
import type { JobContext, UnitFacts } from "./context.ts";
import type { Item } from "./item.ts";

export interface Subject {
  /** "" for the job as a whole, a unit's id, a fastener group's id, or "1" to "n". */
  key: string;
  label: string;
  unit?: UnitFacts;
}

const WHOLE_JOB: readonly Subject[] = [{ key: "", label: "" }];

/**
 * What the item is asked for on this job, in order; empty where no unit of its kind is on the job.
 */
export function subjectsOf(item: Item, context: Pick<JobContext, "units">): readonly Subject[] {
  const { repeat } = item;
  if (!repeat) return WHOLE_JOB;
  if ("times" in repeat) {
    return Array.from({ length: repeat.times }, (_, index) => ({
      key: String(index + 1),
      label: `no. ${index + 1}`,
    }));
  }
  if (repeat.per === "fastener-group") {
    return repeat.groups.map((group) => ({ key: group.id, label: group.title }));
  }
  return context.units
    .filter((unit) => repeat.ofKind === undefined || unit.kind === repeat.ofKind)
    .map((unit) => ({ key: unit.id, label: `${unit.modelCode} ${unit.serial}`, unit }));
}

/**
 * Whether two items are asked for the same subjects, so that one can speak of the other's answer.
 */
export function sameSubjects(left: Item, right: Item): boolean {
  const [one, two] = [left.repeat, right.repeat];
  if (!one || !two) return one === two;
  if ("times" in one || "times" in two)
    return "times" in one && "times" in two && one.times === two.times;
  if (one.per === "unit" && two.per === "unit") {
    return two.ofKind === undefined || one.ofKind === two.ofKind;
  }
  if (one.per === "fastener-group" && two.per === "fastener-group") {
    const ids = new Set(two.groups.map((group) => group.id));
    return one.groups.every((group) => ids.has(group.id));
  }
  return false;
}
