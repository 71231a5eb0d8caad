// Requirement: releases, their `from` ranges and companions become numbered levels, steps and
// clashes for the search (product rule).
import type { LevelWalk } from "./level-tables.ts";
import { type Ladder, ladderOf } from "./order-ladders.ts";
import type { OrderModel, OrderUnit } from "./order-request.ts";
import { type OrderRule, rulesOf } from "./order-rules.ts";

/** A site's units, the ladders of their models and every rule between them. */
export interface OrderLayout {
  units: readonly OrderUnit[];
  ladders: ReadonlyMap<string, Ladder>;
  rules: readonly OrderRule[];
}

/** Lays a site's units out for the search; refuses what cannot be ordered. */
export function orderLayout(
  models: readonly OrderModel[],
  units: readonly OrderUnit[],
): { ok: true; layout: OrderLayout } | { ok: false; problem: string } {
  const byCode = new Map(models.map((model) => [model.code, model]));
  const ladders = new Map<string, Ladder>();
  for (const { label, modelCode } of units) {
    if (ladders.has(modelCode)) continue;
    const model = byCode.get(modelCode);
    if (!model) return { ok: false, problem: `${label}: there is no model ${modelCode}.` };
    const ladder = ladderOf(model, units);
    if (!ladder.ok) return ladder;
    ladders.set(modelCode, ladder.value);
  }
  const rules = rulesOf(ladders);
  return rules.ok ? { ok: true, layout: { units, ladders, rules: rules.value } } : rules;
}

/** The walk of these units (by index) with only these rules in force. */
export function walkOf(
  layout: OrderLayout,
  chosen: readonly number[],
  rules: readonly OrderRule[],
): LevelWalk {
  const units = chosen.map((unit) => layout.units[unit] as OrderUnit);
  const ladders = units.map(({ modelCode }) => layout.ladders.get(modelCode) as Ladder);
  const levelOf = (index: number, text: string): number =>
    ladders[index]?.levels.indexOf(text) ?? -1;
  const stepsByCode = new Map(
    ladders.map((ladder) => [ladder.model.code, stepsOf(ladder, rules)] as const),
  );
  const needs = units.map((unit, a) =>
    ladders[a]?.levels.map((_, level) => needsAt(unit, level, rules)),
  );
  const breaks = (a: number, levelA: number, b: number, levelB: number): boolean =>
    (needs[a]?.[levelA] ?? []).some(
      (rule) => rule.otherCode === units[b]?.modelCode && !rule.allows[levelB],
    );
  return {
    starts: units.map(({ level }, index) => levelOf(index, level)),
    goals: units.map(({ level, targetLevel }, index) => levelOf(index, targetLevel ?? level)),
    steps: units.map(({ modelCode }) => stepsByCode.get(modelCode) ?? []),
    clash: (a, levelA, b, levelB) => breaks(a, levelA, b, levelB) || breaks(b, levelB, a, levelA),
  };
}

function stepsOf(ladder: Ladder, rules: readonly OrderRule[]): number[][] {
  const own = rules.filter(
    ({ kind, modelCode }) => kind !== "needs" && modelCode === ladder.model.code,
  );
  return ladder.higher.map((higher, from) =>
    higher.filter(
      (to) => ladder.releases[to] && own.every((rule) => rule.level !== to || rule.allows[from]),
    ),
  );
}

function needsAt(unit: OrderUnit, level: number, rules: readonly OrderRule[]): OrderRule[] {
  return rules.filter(
    (rule) => rule.kind === "needs" && rule.level === level && rule.modelCode === unit.modelCode,
  );
}

/** Pairs that exclude each other as they stand, in sentences. */
export function brokenNow({ units, ladders, rules }: OrderLayout): string[] {
  const sentences = rules.flatMap((rule) => {
    if (rule.kind !== "needs") return [];
    return units.flatMap((unit, a) => {
      if (unit.modelCode !== rule.modelCode) return [];
      if (ladders.get(unit.modelCode)?.levels[rule.level] !== unit.level) return [];
      const broken = units.filter(
        (other, b) =>
          a !== b &&
          other.modelCode === rule.otherCode &&
          !rule.allows[ladders.get(other.modelCode)?.levels.indexOf(other.level) ?? -1],
      );
      return broken.map(
        (other) =>
          `${unit.label} does not go with ${other.label} at ${other.level}: ${rule.words}.`,
      );
    });
  });
  return [...new Set(sentences)];
}
