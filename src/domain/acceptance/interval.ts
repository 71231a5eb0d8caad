// Requirement: which numbers a limit accepts, with its ends stated, and how far inside or outside a
// reading lies. Behaviour exactly on an end: min and max accept it, above and below do not.
import { formatQuantity } from "../quantities/format-quantity.ts";
import { isUnit } from "../quantities/units.ts";

/** Accepted values between two ends; a missing end is open. */
export interface Interval {
  low?: number;
  lowIncluded: boolean;
  high?: number;
  highIncluded: boolean;
  /** Set where the limit was written as a value with a tolerance. */
  nominal?: { value: number /** A number in the unit, or "4 %". */; tolerance: number | string };
}

/** Whether a number is accepted. */
export function accepts(interval: Interval, value: number): boolean {
  return aboveLow(interval, value) && belowHigh(interval, value);
}

/** Whether the value is not too low. */
export const aboveLow = ({ low, lowIncluded }: Interval, value: number): boolean =>
  low === undefined || value > low || (lowIncluded && value === low);

/** Whether the value is not too high. */
export const belowHigh = ({ high, highIncluded }: Interval, value: number): boolean =>
  high === undefined || value < high || (highIncluded && value === high);

/**
 * Whether every value that an over-range or under-range reading can stand for is accepted:
 * ">999" proves a lower limit and never an upper one.
 */
export function acceptsBeyond(interval: Interval, value: number, qualifier: ">" | "<"): boolean {
  return qualifier === ">"
    ? interval.high === undefined && (interval.low === undefined || value >= interval.low)
    : interval.low === undefined && (interval.high === undefined || value <= interval.high);
}

/** "at least 38 V", "between 5.8 and 6.2 N·m", "6 N·m ± 4 %". */
export function describeInterval(interval: Interval, unit: string): string {
  const show = (value: number): string => withUnit(value, unit);
  if (interval.nominal) {
    const { value, tolerance } = interval.nominal;
    if (interval.low === interval.high) return `exactly ${show(value)}`;
    return `${show(value)} ± ${typeof tolerance === "number" ? show(tolerance) : tolerance}`;
  }
  const { low, high } = interval;
  const from =
    low === undefined ? "" : `${interval.lowIncluded ? "at least" : "more than"} ${show(low)}`;
  const to =
    high === undefined ? "" : `${interval.highIncluded ? "at most" : "less than"} ${show(high)}`;
  if (low !== undefined && low === high) return `exactly ${show(low)}`;
  return [from, to].filter(Boolean).join(" and ");
}

/** Enough to tell a worked-out limit from a reading, and no more than fits a sentence. */
const SHOWN_DIGITS = 8;

/** A number as people write it, with its unit; never more digits than it carries. */
export function withUnit(value: number, unit: string): string {
  const exact = String(value);
  const text = exact.length <= 12 && !exact.includes("e") ? exact : rounded(value, unit);
  const number = value < 0 ? text.replace("-", "−") : text;
  return unit === "" ? number : `${number} ${unit}`;
}

function rounded(value: number, unit: string): string {
  const short = String(Number(value.toPrecision(SHOWN_DIGITS)));
  if (!short.includes("e") || !isUnit(unit)) return short;
  return formatQuantity(value, unit).replace(` ${unit}`, "");
}
