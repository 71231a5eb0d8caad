// Requirement: where no safe order exists, a reason of which nothing can be left out: without any
// one of its units or rules there would be an order (product rule).
import { walkLevels } from "./level-walk.ts";
import { type OrderLayout, walkOf } from "./order-layout.ts";
import type { OrderRule } from "./order-rules.ts";

/** Combinations looked at for each attempt to leave something out. */
const ATTEMPT = { mostSeen: 20_000, anyPath: true };

export interface OrderCause {
  kind: OrderRule["kind"];
  /** The release whose rule it is. */
  modelCode: string;
  level: string;
  /** The model it speaks of: another one for `needs`, else its own. */
  otherCode: string;
  words: string;
}

export interface NoOrder {
  state: "no-order";
  unitIds: string[];
  /** The rules; empty where there simply is no release to go to. */
  because: OrderCause[];
  /** Whether it is proven that nothing can be left out; false only where that took too long. */
  smallest: boolean;
  sentence: string;
}

/**
 * The reason for a site that is proven to have no order, looked for first among the units
 * `suspects` (by index). Fewer units or rules are never harder to order, so what was needed once
 * stays needed.
 */
export function reasonOf(layout: OrderLayout, suspects: readonly number[]): NoOrder {
  let smallest = true;
  const isStuck = (units: readonly number[], rules: readonly OrderRule[]): boolean => {
    if (units.length === 0) return false;
    const result = walkLevels(walkOf(layout, units, rules), ATTEMPT);
    if (result.found === "undecided") smallest = false;
    return result.found === "none";
  };
  const all = [...layout.units.keys()];
  const first = isStuck(suspects, layout.rules) ? suspects : all;
  const group = withoutNeedless(first, (units) => isStuck(units, layout.rules));
  const rules = layout.rules.filter((rule) => mayMatter(layout, group, rule));
  const needed = withoutNeedless(rules, (left) => isStuck(group, left));
  return inWords(layout, group, needed, smallest);
}

/** Leaves out what it `holds` without: first in large pieces, at last one by one. */
function withoutNeedless<T>(all: readonly T[], holds: (left: T[]) => boolean): T[] {
  let left = [...all];
  for (let size = Math.ceil(all.length / 4); size > 0; size = Math.floor(size / 2)) {
    for (let from = 0; from < left.length; ) {
      const rest = [...left.slice(0, from), ...left.slice(from + size)];
      if (holds(rest)) left = rest;
      else from += size;
    }
  }
  return left;
}

/** A rule about levels on which no unit of the group can stand changes nothing. */
function mayMatter(layout: OrderLayout, group: readonly number[], rule: OrderRule): boolean {
  const levels = layout.ladders.get(rule.modelCode)?.levels ?? [];
  const units = group.flatMap((unit) => layout.units[unit] ?? []);
  return (
    units.some(({ modelCode }) => modelCode === rule.otherCode) &&
    units.some(
      ({ modelCode, level, targetLevel }) =>
        modelCode === rule.modelCode &&
        levels.indexOf(level) <= rule.level &&
        rule.level <= levels.indexOf(targetLevel ?? level),
    )
  );
}

function inWords(
  layout: OrderLayout,
  group: readonly number[],
  rules: readonly OrderRule[],
  smallest: boolean,
): NoOrder {
  const units = group.flatMap((unit) => layout.units[unit] ?? []);
  const names = units.map(({ label, level, targetLevel }) =>
    targetLevel === undefined || targetLevel === level
      ? `${label} (stays at ${level})`
      : `${label} (${level} to ${targetLevel})`,
  );
  const because = rules.map(({ kind, modelCode, level, otherCode, words }) => ({
    kind,
    modelCode,
    level: layout.ladders.get(modelCode)?.levels[level] ?? "",
    otherCode,
    words,
  }));
  const words = because.map((cause) => cause.words).join("; ");
  const why = words === "" ? "no release leads there" : words;
  const way = "Choose another target for one of them, or ask the maker for the order it supports.";
  return {
    state: "no-order",
    unitIds: units.map(({ id }) => id),
    because,
    smallest,
    sentence: `There is no safe order for ${names.join(" and ")}: ${why}. ${way}`,
  };
}
