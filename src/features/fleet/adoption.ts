import { Temporal } from "temporal-polyfill";
import type { StepSeries } from "../../domain/charts/step-chart.ts";
import type { Reached } from "./store.ts";

export const WEEKS = 26;

/** The days at which weeks end, the last one `lastDay`; the first is where the counting starts. */
export const weekEnds = (lastDay: string): string[] =>
  Array.from({ length: WEEKS + 1 }, (_, index) =>
    Temporal.PlainDate.from(lastDay)
      .subtract({ days: 7 * (WEEKS - index) })
      .toString(),
  );

/** By level how many units had reached it by the end of each week: counts that only grow. */
export function adoptionSeries(rows: readonly Reached[]): StepSeries[] {
  const levels = [...new Set(rows.map(({ level }) => level))];
  return levels.map((name) => {
    const values: number[] = new Array(WEEKS + 1).fill(0);
    for (const { level, week, units } of rows) {
      if (level !== name) continue;
      for (let at = week; at <= WEEKS; at += 1) values[at] = (values[at] ?? 0) + units;
    }
    return { name, values };
  });
}
