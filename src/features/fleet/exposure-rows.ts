import { Temporal } from "temporal-polyfill";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import type { Exposure } from "./store.ts";

const TERMS = ["over30", "over", "week", "month", "later"] as const;
/** A bar is at most so wide; the widest one is the largest number. */
const WIDEST = 100;

/** A row a severity, a column a term; each number leads to its list. */
export function exposureRows(found: readonly Exposure[], today: string, language: ShownLanguage) {
  const most = Math.max(1, ...found.map(({ units }) => units));
  const cell = (severity: (typeof FIRMWARE_SEVERITIES)[number], term: (typeof TERMS)[number]) => {
    const row = found.find((one) => one.severity === severity && one.term === term);
    const units = row?.units ?? 0;
    return {
      units,
      sites: row?.sites ?? 0,
      width: units === 0 ? 0 : Math.max(2, Math.round((units / most) * WIDEST)),
      href: listAddress(severity, term, today),
      isOver: term === "over" || term === "over30",
    };
  };
  return {
    terms: TERMS.map((term) => say(language, `fleet.term.${term}`)),
    rows: FIRMWARE_SEVERITIES.map((severity) => ({
      severity: say(language, `fleet.severity.${severity}`),
      cells: TERMS.map((term) => cell(severity, term)),
    })),
    none: found.length === 0,
  };
}

/** The due list with the filters that give this number. */
function listAddress(severity: string, term: (typeof TERMS)[number], today: string): string {
  const day = (days: number) => Temporal.PlainDate.from(today).add({ days }).toString();
  const bounds: Record<(typeof TERMS)[number], Record<string, string>> = {
    over30: { dueBefore: day(-30) },
    over: { dueFrom: day(-30), dueBefore: day(0) },
    week: { dueFrom: day(0), dueBefore: day(7) },
    month: { dueFrom: day(7), dueBefore: day(30) },
    later: { dueFrom: day(30) },
  };
  return `/firmware?${new URLSearchParams({ severity, ...bounds[term] })}`;
}
