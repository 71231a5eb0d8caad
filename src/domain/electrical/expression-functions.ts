// Everything a plan's expressions may call, in one list: the expression engine registers
// it, the documentation prints it, and a test evaluates every signature.
import { CIRCUIT_FUNCTIONS } from "./expressions/circuits.ts";
import type { ExpressionFunction } from "./expressions/expression-function.ts";
import { FAULT_PROTECTION_FUNCTIONS } from "./expressions/fault-protection.ts";
import { PV_FUNCTIONS } from "./expressions/pv.ts";

export type { ExpressionFunction } from "./expressions/expression-function.ts";

/** Names are unique; each call returns a finite number or throws a RangeError. */
export const EXPRESSION_FUNCTIONS: readonly ExpressionFunction[] = [
  ...FAULT_PROTECTION_FUNCTIONS,
  ...CIRCUIT_FUNCTIONS,
  ...PV_FUNCTIONS,
];
