// Insulation must withstand a test voltage above the working voltage and leak next to
// nothing: IEC 60364-6 Table 6.1, BS 7671 Table 64; PV arrays IEC 62446-1, 6.7.
import { outside } from "./bounds.ts";
import { type Figure, figure, refuse } from "./calculation.ts";
import { choose, firstRow, type RowFound } from "./look-up.ts";
import {
  EXTRA_LOW_VOLTAGE,
  INSULATION_BS,
  INSULATION_IEC,
  type InsulationRow,
  PV_INSULATION,
  type PvInsulationRow,
} from "./tables/insulation-minima.ts";

export const INSULATION_CIRCUITS = ["selv-pelv", "ordinary"] as const;
export const INSULATION_STANDARDS = ["IEC", "BS"] as const;

/** The table to cite: IEC 60364-6 or BS 7671; the rows are the same. */
export function insulationTable(standard: (typeof INSULATION_STANDARDS)[number]) {
  return standard === "BS" ? INSULATION_BS : INSULATION_IEC;
}

/**
 * Test voltage and least insulation resistance of a circuit.
 *
 * @param circuit "selv-pelv", or "ordinary" (which includes FELV)
 * @param nominalV nominal voltage of the circuit, V
 * @param current "ac" or "dc"; sets how far extra-low voltage reaches (50 V or 120 V)
 */
export function insulationRow(
  circuit: string,
  nominalV: number,
  current: string = "ac",
): RowFound<InsulationRow> {
  const refusal = outside({ voltageV: nominalV });
  if (refusal) return refusal;
  const known = choose("kind of circuit", circuit, INSULATION_CIRCUITS);
  if (!known.ok) return known;
  const kind = choose("kind of current", current, ["ac", "dc"]);
  if (!kind.ok) return kind;
  const extraLowV = kind.word === "ac" ? EXTRA_LOW_VOLTAGE.acV : EXTRA_LOW_VOLTAGE.dcV;
  if (known.word === "selv-pelv" && nominalV > extraLowV) {
    const problem =
      `A circuit of ${nominalV} V ${kind.word.toUpperCase()} is above extra-low voltage ` +
      `(${extraLowV} V), so it cannot be SELV or PELV; test it as an ordinary circuit.`;
    return refuse("not-applicable", problem);
  }
  if (kind.word === "ac" && nominalV > 1000) {
    const problem =
      `${nominalV} V AC is above low voltage (1000 V); ${INSULATION_IEC.clause} does not reach ` +
      "it.";
    return refuse("out-of-range", problem);
  }
  const row = INSULATION_IEC.rows.find((candidate) => {
    const inBand = nominalV > candidate.aboveV && nominalV <= candidate.upToV;
    return candidate.circuit === known.word && inBand;
  });
  return { ok: true, row: row as InsulationRow };
}

/** Least insulation resistance of a circuit, MΩ. */
export function insulationMinMohm(circuit: string, nominalV: number, current = "ac"): Figure {
  const found = insulationRow(circuit, nominalV, current);
  return found.ok ? figure(found.row.minMohm) : found;
}

/** Test voltage for a circuit's insulation, V DC. */
export function insulationTestV(circuit: string, nominalV: number, current = "ac"): Figure {
  const found = insulationRow(circuit, nominalV, current);
  return found.ok ? figure(found.row.testV) : found;
}

/** The row for a PV array by its open-circuit voltage at standard test conditions, V. */
export function pvInsulationRow(vocStcV: number): RowFound<PvInsulationRow> {
  const refusal = outside({ voltageV: vocStcV });
  if (refusal) return refusal;
  const systemV = vocStcV * PV_INSULATION.voltageFactor;
  const covers = (row: PvInsulationRow) =>
    row.including ? systemV <= row.upToV : systemV < row.upToV;
  return firstRow(PV_INSULATION, covers, `a system voltage of ${systemV} V`, "up to 1500 V");
}

/** Least insulation resistance of a PV array, MΩ. */
export function pvInsulationMinMohm(vocStcV: number): Figure {
  const found = pvInsulationRow(vocStcV);
  return found.ok ? figure(found.row.minMohm) : found;
}
