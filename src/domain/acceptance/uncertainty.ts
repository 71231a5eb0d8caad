// Requirement: an instrument's uncertainty comes from its stated accuracy: ± (% of reading + % of
// range + n digits), or % of the setting for a torque tool. The basis of each percentage is
// explicit.
import type { InstrumentFacts } from "../plan/context.ts";
import { convertDifference } from "../quantities/convert.ts";
import { isUnit, quantityOf } from "../quantities/units.ts";
import { significant } from "./significant.ts";

/**
 * Expanded uncertainty U of a reading: the stated limit of error taken as U (k = 2).
 * @param value reading in `unit`
 * @returns U in `unit`; undefined when no accuracy is stated, or what it rests on is not, or is of
 *   another quantity
 */
export function expandedUncertainty(
  instrument: InstrumentFacts | undefined,
  value: number,
  unit: string,
): number | undefined {
  const accuracy = instrument?.accuracy;
  if (!accuracy) return undefined;
  const { percentOfReading, percentOfSetting, percentOfRange, digits } = accuracy;
  if ([percentOfReading, percentOfSetting, percentOfRange, digits].every(isAbsent)) {
    return undefined;
  }
  const { range, resolution } = instrument;
  const ofRange = share(percentOfRange, range?.max, range?.unit, unit);
  const ofStep = share(digits, resolution?.step, resolution?.unit, unit);
  if (ofRange === undefined || ofStep === undefined) return undefined;
  const ofReading = ((percentOfReading ?? 0) + (percentOfSetting ?? 0)) * Math.abs(value);
  return significant((ofReading + ofRange) / 100 + ofStep);
}

const isAbsent = (part: number | undefined): boolean => part === undefined;

/** A step of 1 °F is a step of 5/9 °C: only the size is converted, not the zero point. */
function share(
  times: number | undefined,
  of: number | undefined,
  from: string | undefined,
  to: string,
): number | undefined {
  if (times === undefined) return 0;
  if (of === undefined || from === undefined || !isUnit(from) || !isUnit(to)) return undefined;
  if (quantityOf(from) !== quantityOf(to)) return undefined;
  return times * Math.abs(convertDifference(of, from, to));
}
