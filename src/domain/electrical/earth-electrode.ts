// In a TT system the electrode must keep accessible metal within the touch voltage at the
// current that trips the RCD: RA · IΔn ≤ 50 V. IEC 60364-4-41 411.5.3, BS 7671 Table 41.5.
import { outside } from "./bounds.ts";
import { type Figure, figure } from "./calculation.ts";
import { TT_ELECTRODE } from "./tables/earth-electrode-rules.ts";

/**
 * Largest resistance of the earth electrode with its protective conductor, in Ω.
 *
 * @param residualCurrentMa rated residual current of the RCD, mA
 * @param touchVoltageV permitted touch voltage, V; 50 unless a special location says less
 */
export function maxElectrodeOhm(
  residualCurrentMa: number,
  touchVoltageV: number = TT_ELECTRODE.touchVoltageV,
): Figure {
  const refusal = outside({ residualCurrentMa, voltageV: touchVoltageV });
  if (refusal) return refusal;
  return figure(touchVoltageV / (residualCurrentMa / 1000));
}

/** True for a reading that may drift past any limit when the ground dries out or freezes. */
export function isUnstableElectrode(readingOhm: number): boolean {
  return readingOhm > TT_ELECTRODE.unstableAboveOhm;
}
