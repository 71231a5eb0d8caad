// The one place that knows the CEL library. Requirement: an expression in a plan is checked against
// declared names and types before the plan is published (CEL specification, language definition),
// and its work is bounded: by its length, its depth, and by what the profile leaves out.
import { Environment } from "@marcbachmann/cel-js";
import { EXPRESSION_FUNCTIONS } from "../electrical/expression-functions.ts";
import { type Reference, type ResolveName, SLOTS, type ValueType } from "./expression-names.ts";
import { rewrite } from "./expression-profile.ts";
import { type FaultCode, ProfileFault } from "./profile-fault.ts";
import { typeName, wordedReason } from "./reason-words.ts";

export type ExpressionType = Exclude<ValueType, "list<double>">;
export interface Expression {
  text: string;
  /** Items whose answers it reads. */
  uses: readonly string[];
  /** Items of which it reads the answers for every subject. */
  usesAll: readonly string[];
  evaluate(
    names: Record<string, unknown>,
  ): { ok: true; value: unknown } | { ok: false; problem: string };
}

export type ExpressionFaultCode = FaultCode | "syntax" | "wrong-type";
export type Compiled =
  | { ok: true; expression: Expression }
  | { ok: false; code: ExpressionFaultCode; problem: string };

const LIMITS = { maxAstNodes: 300, maxDepth: 24, maxListElements: 60, maxCallArguments: 10 };
const reader = new Environment({ limits: LIMITS });

/** Whole-set functions of plans, beside those of the electrical rules. */
const SET_FUNCTIONS = [
  { name: "highest", call: (values: number[]) => ofSome(values, Math.max) },
  { name: "lowest", call: (values: number[]) => ofSome(values, Math.min) },
];
const FUNCTIONS = new Set([...EXPRESSION_FUNCTIONS, ...SET_FUNCTIONS].map(({ name }) => name));
/** Brackets around every operation deepen the text: by no more than there are nodes. */
const engine = new Environment({ limits: { ...LIMITS, maxAstNodes: 900, maxDepth: 900 } });
for (const { slot, type } of SLOTS) engine.registerVariable(slot, type);
for (const { signature, call } of EXPRESSION_FUNCTIONS) {
  engine.registerFunction(signature, call, { async: false });
}
for (const { name, call } of SET_FUNCTIONS) {
  engine.registerFunction(`${name}(list<double>): double`, call, { async: false });
}

function ofSome(values: readonly number[], pick: (...values: number[]) => number): number {
  if (values.length === 0) throw new RangeError("there are no readings");
  return pick(...values);
}

/**
 * Parses and type-checks.
 * @param names what the expression may read
 * @param wanted type, or types, of its result
 * @returns the expression, or one sentence with the reason
 */
export function compileExpression(
  text: string,
  names: ResolveName,
  wanted: ExpressionType | readonly ExpressionType[],
): Compiled {
  try {
    const { source, references } = rewrite(reader.parse(text).ast, names, FUNCTIONS);
    const run = engine.parse(source);
    const checked = run.check();
    if (!checked.valid) return refuse(text, "wrong-type", wordedReason(checked.error));
    const types: readonly string[] = typeof wanted === "string" ? [wanted] : wanted;
    if (!types.includes(checked.type ?? "")) {
      const needed = types.map(typeName).join(" or ");
      const reason = `it gives ${typeName(checked.type ?? "")}, where ${needed} is needed`;
      return refuse(text, "wrong-type", reason);
    }
    return { ok: true, expression: expressionOf(text, references, run) };
  } catch (error) {
    return refuse(text, error instanceof ProfileFault ? error.code : "syntax", wordedReason(error));
  }
}

const refuse = (text: string, code: ExpressionFaultCode, reason: string): Compiled => ({
  ok: false,
  code,
  problem: `The expression "${text.slice(0, 80)}" cannot be used: ${reason}.`,
});

function expressionOf(
  text: string,
  references: readonly Reference[],
  run: (slots: Record<string, unknown>) => unknown,
): Expression {
  const usesAll = references.filter(({ root }) => root === "readings").map(({ field }) => field);
  const own = references.filter(({ root }) => root === "answers").map(({ field }) => field);
  const evaluate: Expression["evaluate"] = (names) => {
    const slots: Record<string, unknown> = Object.create(null);
    let absent: Reference | undefined;
    for (const reference of references) {
      const value = read(reference, names);
      if (value === undefined) absent ??= reference;
      else slots[reference.slot] = value;
    }
    try {
      return { ok: true, value: run(slots) };
    } catch (error) {
      if (!absent) return { ok: false, problem: wordedReason(error) };
      return { ok: false, problem: `${absent.root}.${absent.field} is not known here` };
    }
  };
  return { text, uses: [...new Set([...own, ...usesAll])], usesAll, evaluate };
}

function read({ root, field, type }: Reference, names: Record<string, unknown>): unknown {
  const holder = Object.hasOwn(names, root) ? names[root] : undefined;
  if (field === "") return holder;
  if (typeof holder !== "object" || holder === null || !Object.hasOwn(holder, field)) {
    return undefined;
  }
  const value = (holder as Record<string, unknown>)[field];
  return type !== "list<double>" && typeof value !== JAVASCRIPT_TYPES[type] ? undefined : value;
}
const JAVASCRIPT_TYPES = { double: "number", bool: "boolean", string: "string" } as const;
