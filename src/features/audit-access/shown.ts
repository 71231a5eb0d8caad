import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { NamedScope } from "./scope-words.ts";
import type { AccessRow } from "./store.ts";

const dayOf = (date: Date): string => date.toISOString().slice(0, 10);

/** One access as the page tells it. */
export function shownAccess(
  { row, named }: { row: AccessRow; named: NamedScope },
  today: string,
  language: ShownLanguage,
) {
  const untilOn = row.untilOn && dayOf(row.untilOn);
  const isOver = row.withdrawnAt !== null || (untilOn !== null && untilOn < today);
  const day = (text: string) => plainDay(language, text);
  const period = named.period && { from: day(named.period.from), to: day(named.period.to) };
  return {
    ...{ isOver, isWithdrawn: row.withdrawnAt !== null, outside: row.outside },
    ...{ from: day(dayOf(row.fromOn)), until: untilOn && day(untilOn) },
    ...{ givenBy: row.givenBy.name, withdrawnBy: row.withdrawnBy?.name },
    parts: [
      ...(period ? [say(language, "access.ofPeriod", period)] : []),
      ...(named.models.length > 0
        ? [say(language, "access.ofModels", { models: named.models.join(", ") })]
        : []),
      ...(named.sites.length > 0
        ? [say(language, "access.ofSites", { sites: named.sites.join(", ") })]
        : []),
    ].join("; "),
  };
}
