// Names for expressions in tests: a job with one pack and some answers.
import { compileExpression, type ExpressionType } from "../../../src/domain/plan/expression.ts";
import type { ResolveName, ValueType } from "../../../src/domain/plan/expression-names.ts";

const TYPES: Readonly<Record<string, ValueType>> = {
  "value.": "double",
  "site.supply": "string",
  "count.batteryPack": "double",
  "unit.serial": "string",
  "unit.position": "double",
  "model.cells": "double",
  "model.hasHeater": "bool",
  "answers.breaker_off": "bool",
  "answers.pack_voltage": "double",
  "answers.constructor": "double",
  "answers.absent": "double",
  "answers.gone": "bool",
  "readings.pack_voltage": "list<double>",
};

export const resolve: ResolveName = (root, field) => {
  const name = `${root}.${field}`;
  return Object.hasOwn(TYPES, name) ? TYPES[name] : undefined;
};

export const NAMES = {
  value: 12,
  site: { supply: "TT" },
  count: { batteryPack: 2 },
  unit: { serial: "KH00001", position: 1 },
  model: { cells: 16, hasHeater: false },
  answers: { breaker_off: true, pack_voltage: 52.8, constructor: 7 },
  readings: { pack_voltage: [52.8, 52.5] },
};

const ANY: readonly ExpressionType[] = ["double", "bool", "string"];

/**
 * The value of an expression, or its problem as "code: sentence", or "error: …" from evaluation.
 */
export function worked(text: string, names: Record<string, unknown> = NAMES): unknown {
  const compiled = compileExpression(text, resolve, ANY);
  if (!compiled.ok) return `${compiled.code}: ${compiled.problem}`;
  const result = compiled.expression.evaluate(names);
  return result.ok ? result.value : `error: ${result.problem}`;
}
