import { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { asked } from "../../web/sorted-list.ts";
import { DAY_KINDS } from "./calendar-sorted-store.ts";
import { countDays } from "./calendar-store.ts";

/** Any that a warranty may end in. */
export const CalendarYear = z.coerce.number().int().min(1990).max(2150);

/** The days of a year or of a month of it, of both kinds or of one. */
export const DAY_FILTERS = {
  year: asked(CalendarYear),
  month: asked(z.string().regex(/^\d{4}-(?:0[1-9]|1[0-2])$/)),
  kind: asked(z.enum(DAY_KINDS)),
};

interface Period {
  year: number;
  from: string;
  to: string;
}

/** Of this year where neither is asked for. */
export function periodOf(
  { year, month }: { year?: number | undefined; month?: string | undefined },
  today: string,
): Period {
  if (month !== undefined) {
    return { year: yearOf(month), from: `${month}-01`, to: lastDay(month) };
  }
  const shown = year ?? yearOf(today);
  return { year: shown, from: `${shown}-01-01`, to: `${shown}-12-31` };
}

const yearOf = (day: string): number => Number(day.slice(0, 4));

/** The day before the first of the next month. */
function lastDay(month: string): string {
  const [year = 0, number = 0] = month.split("-").map(Number);
  return new Date(Date.UTC(year, number, 0)).toISOString().slice(0, 10);
}

export interface CalendarMonth {
  month: string;
  register: number;
  ends: number;
}

const MONTHS = Array.from({ length: 12 }, (_, at) => String(at + 1).padStart(2, "0"));

/** The twelve months of a year, those without a day too. */
export async function warrantyYear(
  tx: FirmTransaction,
  year: number,
  now: Date,
): Promise<CalendarMonth[]> {
  const rows = await countDays(tx, { from: `${year}-01-01`, to: `${year}-12-31`, now });
  return MONTHS.map((number) => {
    const month = `${year}-${number}`;
    const count = (kind: string) =>
      rows.find((row) => row.month === month && row.kind === kind)?.units ?? 0;
    return { month, register: count("register"), ends: count("ends") };
  });
}
