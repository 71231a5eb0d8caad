// Resistances side by side and the closed ring: what a healthy circuit must read.
// Kirchhoff's laws; IET Guidance Note 3 for the ring final circuit.
import { outside } from "./bounds.ts";
import { type Figure, figure, refuse } from "./calculation.ts";

/**
 * Resistance of branches in parallel, in the unit of the branches (Ω or MΩ).
 *
 * @param branches one or more resistances; a branch of 0 makes the whole 0
 */
export function parallelOhm(branches: readonly number[]): Figure {
  if (branches.length === 0) {
    return refuse("bad-input", "There is no branch to put in parallel; give at least one reading.");
  }
  let conductance = 0;
  for (const resistanceOhm of branches) {
    const refusal = outside({ resistanceOhm });
    if (refusal) return refusal;
    conductance += 1 / resistanceOhm;
  }
  return figure(1 / conductance);
}

/**
 * R1+R2 expected at each socket of a ring final circuit after cross-connection, Ω.
 *
 * @param lineEndsOhm r1, line conductor end to end
 * @param earthEndsOhm r2, protective conductor end to end
 */
export function ringFinalOhm(lineEndsOhm: number, earthEndsOhm: number): Figure {
  const refusal =
    outside({ resistanceOhm: lineEndsOhm }) ?? outside({ resistanceOhm: earthEndsOhm });
  return refusal ?? figure((lineEndsOhm + earthEndsOhm) / 4);
}

/** Prospective fault current U / Z, A. */
export function prospectiveFaultA(voltageV: number, impedanceOhm: number): Figure {
  const refusal = outside({ voltageV, impedanceOhm });
  return refusal ?? figure(voltageV / impedanceOhm);
}
