// What a value is judged by besides its limit.
import type { InstrumentFacts, UnitFacts } from "../plan/context.ts";
import type { DecisionRule } from "../plan/item.ts";
import type { Names } from "./limits.ts";

export interface ValueFacts {
  rule: DecisionRule;
  instrument: InstrumentFacts | undefined;
  /** The unit the item is asked for, if it is asked per unit. */
  unit: UnitFacts | undefined;
  units: readonly UnitFacts[];
  names: Names;
}
