// What a length of copper should read, so that a loose joint shows: IEC 60228 with
// temperature, NEC Chapter 9 Table 8, and the geometry of American gauges (ASTM B258).
import { outside } from "./bounds.ts";
import { type Figure, figure, type Refusal, refuse } from "./calculation.ts";
import { choose, exactRow } from "./look-up.ts";
import {
  COPPER_RESISTANCE,
  TEMPERATURE_METHODS,
  type TemperatureMethodRow,
} from "./tables/conductor-resistance-iec.ts";
import { NEC_CONDUCTORS, NEC_GAUGES } from "./tables/conductors-nec.ts";

export const METHODS = ["iec-60228-kt", "copper-exact", "alpha-00393"] as const;
export const NEC_FORMS = ["solid", "stranded"] as const;

/** Largest resistance at 20 °C of a copper conductor of IEC class 2 or 5, Ω/km. */
export function copperOhmPerKm(conductorClass: number, areaMm2: number): Figure {
  if (conductorClass !== 2 && conductorClass !== 5) {
    const problem = `Class ${conductorClass} is not held here; use 2 (stranded) or 5 (flexible).`;
    return refuse("bad-input", problem);
  }
  const found = exactRow(COPPER_RESISTANCE, "areaMm2", areaMm2, "a conductor area in mm² of");
  if (!found.ok) return found;
  return figure(conductorClass === 2 ? found.row.class2OhmPerKm : found.row.class5OhmPerKm);
}

export type MethodFound = { ok: true; row: TemperatureMethodRow } | Refusal;

/** The named way to carry resistance from 20 °C to another temperature. */
export function temperatureMethod(method: string, temperatureC: number): MethodFound {
  const known = choose("temperature method", method, METHODS);
  if (!known.ok) return known;
  const { fromC, toC, clause } = TEMPERATURE_METHODS;
  if (!(temperatureC >= fromC && temperatureC <= toC)) {
    const problem =
      `${clause} is held here from ${fromC} °C to ${toC} °C; ${temperatureC} °C is outside. ` +
      "Measure at another temperature or use the maker's data.";
    return refuse("out-of-range", problem);
  }
  return exactRow(TEMPERATURE_METHODS, "method", known.word, "the method");
}

/** Factor by which resistance at 20 °C grows: 1 + a·(t − 20). */
export function temperatureFactor(perK: number, temperatureC: number): number {
  return 1 + perK * (temperatureC - 20);
}

/**
 * Largest resistance of a copper conductor, Ω.
 *
 * @param conductorClass 2 (stranded) or 5 (flexible)
 * @param areaMm2 nominal area, mm², one that the table holds
 * @param lengthM length of conductor, m (go and return counted apart)
 * @param temperatureC conductor temperature, °C, 5 to 100
 * @param method "iec-60228-kt", "copper-exact" or "alpha-00393"
 */
export function conductorResistanceOhm(
  conductorClass: number,
  areaMm2: number,
  lengthM: number,
  temperatureC: number = 20,
  method: string = "iec-60228-kt",
): Figure {
  const refusal = outside({ lengthM, temperatureC });
  if (refusal) return refusal;
  const perKm = copperOhmPerKm(conductorClass, areaMm2);
  if (!perKm.ok) return perKm;
  const found = temperatureMethod(method, temperatureC);
  if (!found.ok) return found;
  const factor = temperatureFactor(found.row.perK, temperatureC);
  return figure((perKm.value * factor * lengthM) / 1000);
}

/** Resistance at 75 °C of a copper conductor by gauge, Ω per 1000 ft (NEC Ch. 9 Table 8). */
export function necOhmPerKft(awg: string, form: string): Figure {
  const gauge = choose("gauge", awg, NEC_GAUGES);
  if (!gauge.ok) return gauge;
  const kind = choose("form of conductor", form, NEC_FORMS);
  if (!kind.ok) return kind;
  const found = exactRow(NEC_CONDUCTORS, "awg", gauge.word, "gauge");
  if (!found.ok) return found;
  if (kind.word === "stranded") return figure(found.row.strandedOhmPerKft);
  if (found.row.solidOhmPerKft !== null) return figure(found.row.solidOhmPerKft);
  const problem =
    `${NEC_CONDUCTORS.clause} as held here has no solid conductor of ${awg} AWG; use the ` +
    "stranded row.";
  return refuse("not-applicable", problem);
}

/**
 * Resistance of a copper conductor by gauge, Ω: R1·[1 + 0.00323·(t − 75)].
 *
 * Source: NEC Chapter 9 Table 8, note 2.
 */
export function necResistanceOhm(
  awg: string,
  form: string,
  lengthFt: number,
  temperatureC: number = NEC_CONDUCTORS.temperatureC,
): Figure {
  const refusal = outside({ lengthFt, temperatureC });
  if (refusal) return refusal;
  const perKft = necOhmPerKft(awg, form);
  if (!perKft.ok) return perKft;
  const { perK, temperatureC: tableC, fromC, toC, clause } = NEC_CONDUCTORS;
  if (temperatureC < fromC || temperatureC > toC) {
    const problem =
      `${clause} is corrected here from ${fromC} °C to ${toC} °C; ${temperatureC} °C is ` +
      "outside. Use the maker's data.";
    return refuse("out-of-range", problem);
  }
  const factor = 1 + perK * (temperatureC - tableC);
  return figure((perKft.value * factor * lengthFt) / 1000);
}
