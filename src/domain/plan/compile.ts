// Requirement: a plan is read once and then only evaluated; every expression in it has passed the
// same check at publication (blueprint: expressions are typed-checked before use).
import {
  compileExpression,
  type Expression,
  type ExpressionFaultCode,
  type ExpressionType,
} from "./expression.ts";
import { isHoldPoint } from "./hold-point.ts";
import type { Item, ItemOf } from "./item.ts";
import type { Bound, Limit } from "./limit.ts";
import { ANSWER_TYPES, namesFor, type PlanNames, planNames } from "./names.ts";
import type { Plan } from "./schema.ts";
import { type CompiledSequence, linkSequence } from "./sequence-links.ts";

export type CompiledBound = number | Expression;

export type CompiledLimit =
  | {
      kind: "range";
      min?: CompiledBound;
      above?: CompiledBound;
      max?: CompiledBound;
      below?: CompiledBound;
    }
  | {
      kind: "nominal";
      nominal: CompiledBound;
      tolerance: { absolute: number } | { percent: number };
    }
  | { kind: "one-of"; values: readonly (string | number)[] }
  | { kind: "count"; count: number }
  | { kind: "expression"; expression: Expression; words: string };

export interface CompiledItem {
  item: Item;
  stageId: string;
  holdPoint: boolean;
  applies?: Expression;
  limit?: CompiledLimit;
  /** Expected positions of a `set` item. */
  positions?: readonly { switch: string; position: string | Expression }[];
  /** Items that must be met before: those of `after` and `dwell`, and those its limits read. */
  needs: readonly string[];
  /** Those of them that its limits read. */
  reads: readonly string[];
  /** Those of them that must be met for every subject, not for the same one only. */
  needsAll: readonly string[];
  /** What else its place in the sequence of tests rests on; left out where nothing does. */
  sequence?: CompiledSequence;
}

export interface CompiledPlan {
  plan: Plan;
  items: readonly CompiledItem[];
  byId: ReadonlyMap<string, CompiledItem>;
}

export interface ExpressionFault {
  /** JSON pointer from the item: "/limit/min/cel". */
  place: string;
  code: ExpressionFaultCode;
  problem: string;
}

/**
 * Compiles a checked plan.
 * @throws Error when an expression does not compile: checkPlan refuses such a plan beforehand
 */
export function compilePlan(plan: Plan): CompiledPlan {
  const names = planNames(plan);
  const items = linkSequence(
    plan.stages.flatMap((stage) =>
      stage.items.map((item) => {
        const { compiled, faults } = compileItem(names, stage.id, item);
        if (faults[0]) throw new Error(`${item.id}${faults[0].place}: ${faults[0].problem}`);
        return compiled;
      }),
    ),
  );
  return { plan, items, byId: new Map(items.map((compiled) => [compiled.item.id, compiled])) };
}

/** Compiles one item and tells every expression of it that does not compile. */
export function compileItem(
  names: PlanNames,
  stageId: string,
  item: Item,
): { compiled: CompiledItem; faults: ExpressionFault[] } {
  const reader = new ItemReader(names, item);
  const { appliesWhen } = item;
  const applies = appliesWhen
    ? reader.compile(appliesWhen, "bool", "/appliesWhen", { decides: true })
    : undefined;
  const limit = "limit" in item && item.limit ? compileLimit(item, item.limit, reader) : undefined;
  const positions = item.kind === "set" ? compilePositions(item, reader) : undefined;
  const compiled: CompiledItem = {
    item,
    stageId,
    holdPoint: isHoldPoint(item),
    needs: [...reader.needs],
    reads: [...reader.reads],
    needsAll: [...reader.needsAll],
    ...(applies ? { applies } : {}),
    ...(limit ? { limit } : {}),
    ...(positions ? { positions } : {}),
  };
  return { compiled, faults: reader.faults };
}

/** Compiles the expressions of one item, and gathers what they need and what is wrong with them. */
class ItemReader {
  readonly faults: ExpressionFault[] = [];
  readonly needs: Set<string>;
  readonly reads = new Set<string>();
  readonly needsAll = new Set<string>();
  readonly #names: PlanNames;
  readonly #item: Item;

  constructor(names: PlanNames, item: Item) {
    this.#names = names;
    this.#item = item;
    this.needs = new Set(item.after ?? []);
    if (item.dwell) this.needs.add(item.dwell.after);
  }

  /** `decides`: whether the item is asked at all, which waits for nothing. */
  compile(
    text: string,
    wanted: ExpressionType | readonly ExpressionType[],
    place: string,
    { decides = false, value }: { decides?: boolean; value?: ExpressionType } = {},
  ): Expression | undefined {
    const compiled = compileExpression(text, namesFor(this.#names, this.#item, value), wanted);
    if (!compiled.ok) {
      this.faults.push({ place, code: compiled.code, problem: compiled.problem });
      return undefined;
    }
    const { expression } = compiled;
    if (!decides) {
      for (const id of expression.uses) {
        this.needs.add(id);
        this.reads.add(id);
      }
      for (const id of expression.usesAll) this.needsAll.add(id);
    }
    return expression;
  }
}

const POSITION_TYPES = ["string", "double"] as const;

function compilePositions(item: ItemOf<"set">, reader: ItemReader): CompiledItem["positions"] {
  return item.positions.map((entry, index) => ({
    switch: entry.switch,
    position:
      typeof entry.position === "string"
        ? entry.position
        : (reader.compile(entry.position.cel, POSITION_TYPES, `/positions/${index}/position/cel`) ??
          ""),
  }));
}

function compileLimit(item: Item, limit: Limit, reader: ItemReader): CompiledLimit {
  const bound = (given: Bound | undefined, place: string): CompiledBound | undefined =>
    given === undefined || typeof given === "number"
      ? given
      : (reader.compile(given.cel, "double", `/limit/${place}/cel`) ?? Number.NaN);
  if ("expression" in limit) {
    const value = ANSWER_TYPES[item.kind] ?? "string";
    const expression = reader.compile(limit.expression, "bool", "/limit/expression", { value });
    if (!expression) return { kind: "one-of", values: [] };
    return { kind: "expression", expression, words: limit.words ?? expression.text };
  }
  if ("oneOf" in limit) return { kind: "one-of", values: limit.oneOf };
  if ("count" in limit) return { kind: "count", count: limit.count };
  if ("nominal" in limit) {
    const nominal = bound(limit.nominal, "nominal") ?? Number.NaN;
    return { kind: "nominal", nominal, tolerance: limit.tolerance };
  }
  const range: CompiledLimit = { kind: "range" };
  for (const end of ["min", "above", "max", "below"] as const) {
    const value = bound(limit[end], end);
    if (value !== undefined) range[end] = value;
  }
  return range;
}
