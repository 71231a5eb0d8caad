// Hours of a week in a form: a line a weekday, with one pair of clock times or several.
import type { WorkDay } from "../domain/scheduling/work-week.ts";
import type { ShownLanguage } from "../language/languages.ts";
import { weekdayName } from "../language/moments.ts";

type Typed = Readonly<Record<string, string>>;

export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7];

/** A day alone, or its morning and afternoon. */
export const ONE_PART = [""] as const;
export const TWO_PARTS = ["", "b"] as const;
type Parts = typeof ONE_PART | typeof TWO_PARTS;

/** The hours of which at least one end is typed. */
export function namedHours(typed: Typed, parts: Parts): WorkDay[] {
  return WEEKDAYS.flatMap((weekday) =>
    parts.flatMap((part) => {
      const [from = "", to = ""] = [typed[`from${weekday}${part}`], typed[`to${weekday}${part}`]];
      return from || to ? [{ weekday, from, to }] : [];
    }),
  );
}

export function typedFrom(hours: readonly WorkDay[]): Record<string, string> {
  const typed: Record<string, string> = {};
  for (const { weekday, from, to } of hours) {
    const part = typed[`from${weekday}`] === undefined ? "" : "b";
    typed[`from${weekday}${part}`] = from;
    typed[`to${weekday}${part}`] = to;
  }
  return typed;
}

export const rowsOf = (typed: Typed, language: ShownLanguage, parts: Parts) =>
  WEEKDAYS.map((weekday) => ({
    name: weekdayName(language, weekday),
    cells: parts.map((part, index) => ({
      number: index + 1,
      ...{ fromName: `from${weekday}${part}`, toName: `to${weekday}${part}` },
      ...{ from: typed[`from${weekday}${part}`], to: typed[`to${weekday}${part}`] },
    })),
  }));

interface Issue {
  path: readonly PropertyKey[];
  message: string;
}

/** What a schema found, each with its weekday where it concerns one; `path` is [name, index, …]. */
export const weekProblems = (
  issues: readonly Issue[],
  named: readonly WorkDay[],
  language: ShownLanguage,
): string[] =>
  issues.map(({ path, message }) => {
    const weekday = named[Number(path[1])]?.weekday;
    return weekday ? `${weekdayName(language, weekday)}: ${message}` : message;
  });
