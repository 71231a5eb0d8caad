import type { FirmTransaction } from "../../db/scope.ts";
import { countDays } from "./calendar-store.ts";

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
