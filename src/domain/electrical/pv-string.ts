// A string must read what its modules promise, and must not exceed the inverter's limit on
// the coldest morning. IEC 60891 (linear), IEC 62446-1, NEC 690.7 and 690.8.
import { outside } from "./bounds.ts";
import { type Figure, figure, refuse } from "./calculation.ts";
import { firstRow, type RowFound } from "./look-up.ts";
import { shown } from "./number-text.ts";
import {
  COLD_FACTOR_TABLE,
  type ColdFactorRow,
  PV_CURRENT,
  TRANSLATION,
} from "./tables/pv-rules.ts";

/** Linear translation from 25 °C: 1 + coefficient/100 · (t − 25). */
export function translationFactor(percentPerK: number, cellC: number): number {
  return 1 + (percentPerK / 100) * (cellC - TRANSLATION.referenceC);
}

/**
 * Open-circuit voltage of a string at a cell temperature, V.
 *
 * @param moduleVocV open-circuit voltage of one module at standard test conditions, V
 * @param betaPercentPerK its temperature coefficient, %/K (negative for silicon)
 * @param cellC cell temperature, °C
 * @param modules number in series
 * Source: IEC 60891, linear translation.
 */
export function stringVocV(
  moduleVocV: number,
  betaPercentPerK: number,
  cellC: number,
  modules: number = 1,
): Figure {
  const refusal = outside({
    voltageV: moduleVocV,
    percentPerK: betaPercentPerK,
    temperatureC: cellC,
    moduleCount: modules,
  });
  return refusal ?? figure(modules * moduleVocV * translationFactor(betaPercentPerK, cellC));
}

/** Short-circuit current at an irradiance and a cell temperature, A (IEC 60891, linear). */
export function stringIscA(
  moduleIscA: number,
  alphaPercentPerK: number,
  irradianceWm2: number,
  cellC: number,
  strings: number = 1,
): Figure {
  const refusal = outside({
    currentA: moduleIscA,
    percentPerK: alphaPercentPerK,
    irradianceWm2,
    temperatureC: cellC,
    stringCount: strings,
  });
  if (refusal) return refusal;
  const sun = irradianceWm2 / TRANSLATION.referenceWm2;
  return figure(strings * moduleIscA * sun * translationFactor(alphaPercentPerK, cellC));
}

/** The row of NEC Table 690.7(A) for the lowest expected temperature; 24 °C to −40 °C. */
export function coldFactorRow(lowestC: number): RowFound<ColdFactorRow> {
  const refusal = outside({ temperatureC: lowestC });
  if (refusal) return refusal;
  const covers = (row: ColdFactorRow) =>
    lowestC <= COLD_FACTOR_TABLE.fromC && lowestC >= row.downToC;
  return firstRow(COLD_FACTOR_TABLE, covers, `${shown(lowestC)} °C`, "24 °C down to −40 °C");
}

/** Cold open-circuit voltage of a string by the factor table, V (NEC 690.7(A)(2)). */
export function coldTableVocV(moduleVocV: number, lowestC: number, modules: number = 1): Figure {
  const refusal = outside({ voltageV: moduleVocV, moduleCount: modules });
  if (refusal) return refusal;
  const found = coldFactorRow(lowestC);
  return found.ok ? figure(modules * moduleVocV * found.row.factor) : found;
}

/**
 * Cold open-circuit voltage of a string by the module's coefficient, V (NEC 690.7(A)(1)).
 * Refused above 25 °C, where the translation lowers the voltage.
 */
export function coldCoefficientVocV(
  moduleVocV: number,
  betaPercentPerK: number,
  lowestC: number,
  modules: number = 1,
): Figure {
  if (lowestC > TRANSLATION.referenceC) {
    const problem =
      `A lowest temperature of ${lowestC} °C is above ${TRANSLATION.referenceC} °C, where the ` +
      "voltage is not at its highest; give the coldest expected temperature.";
    return refuse("not-applicable", problem);
  }
  if (betaPercentPerK > 0) {
    const problem =
      `A voltage coefficient of ${betaPercentPerK} %/K is positive, but the voltage of a ` +
      "module rises as it cools; check the sign on the data sheet.";
    return refuse("bad-input", problem);
  }
  return stringVocV(moduleVocV, betaPercentPerK, lowestC, modules);
}

/** How many modules in series stay within a voltage limit. */
export function modulesWithin(limitV: number, coldModuleV: number): number {
  return Math.floor((limitV / coldModuleV) * (1 + 1e-12));
}

/** Largest current of PV source circuits, A: 1.25·Isc (NEC 690.8(A)). */
export function pvMaxCurrentA(moduleIscA: number, strings: number = 1): Figure {
  const refusal = outside({ currentA: moduleIscA, stringCount: strings });
  return refusal ?? figure(PV_CURRENT.factor * moduleIscA * strings);
}
