// Days, times, sizes and lists as a reader of the page's language writes them.
import { locale } from "./spoken.ts";

/** "09:30" in the site's zone. */
export const clockOf = (instant: string | number, timeZone: string): string =>
  new Date(instant).toLocaleTimeString(locale(), {
    timeZone,
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  });

/** "Monday 2 March" in the site's zone. */
export const dayOf = (instant: string | number, timeZone: string): string =>
  new Date(instant).toLocaleDateString(locale(), {
    timeZone,
    weekday: "long",
    day: "numeric",
    month: "long",
  });

/** "25 Nov 2026"; of a plain date, which is the same day everywhere. */
export const plainDay = (date: string): string =>
  new Date(`${date}T00:00:00Z`).toLocaleDateString(locale(), {
    timeZone: "UTC",
    day: "numeric",
    month: "short",
    year: "numeric",
  });

/** "1.4 MB", "310 kB". */
export function sizeOf(bytes: number): string {
  const [unit, value, digits] =
    bytes < 1e6
      ? (["kilobyte", Math.ceil(bytes / 1000), 0] as const)
      : (["megabyte", bytes / 1e6, 1] as const);
  const options = { minimumFractionDigits: digits, maximumFractionDigits: digits };
  return new Intl.NumberFormat(locale(), { style: "unit", unit, ...options }).format(value);
}

/** "45%"; never more than there is of it. */
export const shareOf = (part: number, whole: number): string =>
  new Intl.NumberFormat(locale(), { style: "percent", roundingMode: "floor" }).format(
    part / Math.max(1, whole),
  );

/** "brick, block or stone". */
export const anyOf = (values: readonly string[]): string =>
  new Intl.ListFormat(locale(), { type: "disjunction" }).format(values);

/** The sign before the decimals: "." or ",". */
export const decimalSign = (): string =>
  new Intl.NumberFormat(locale()).formatToParts(0.5).find(({ type }) => type === "decimal")
    ?.value ?? ".";
