import { Temporal } from "temporal-polyfill";
import type { FirmTransaction } from "../../db/scope.ts";
import { isOverdue } from "../../domain/corrective/follow-up.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { effectsDue, nonconformancesDue } from "../nonconformances/store.ts";
import type { Entry } from "./sections.ts";

const DAYS_AHEAD = 7;
const WORDS = {
  step: { due: "home.dueOn", over: "home.overdueSince" },
  effect: { due: "home.effectDueOn", over: "home.effectOverdueSince" },
} as const;

/** Nonconformances whose day, or look at the effect, is over or near; the longest due first. */
export async function followUpsDue(
  tx: FirmTransaction,
  { today, language }: { today: string; language: ShownLanguage },
  most: number,
): Promise<Entry[]> {
  const until = Temporal.PlainDate.from(today).add({ days: DAYS_AHEAD }).toString();
  const steps = await nonconformancesDue(tx, until, most);
  const effects = await effectsDue(tx, until, most);
  return [
    ...steps.map((row) => ({ row, day: row.dueOn, words: WORDS.step, who: undefined })),
    ...effects.map((row) => ({
      ...{ row, day: row.effectDueOn, words: WORDS.effect, who: row.effectBy?.name },
    })),
  ]
    .map(({ day, ...one }) => ({ ...one, dueOn: day?.toISOString().slice(0, 10) ?? today }))
    .toSorted((left, right) => (left.dueOn < right.dueOn ? -1 : 1))
    .slice(0, most)
    .map(({ row, dueOn, words, who }) => {
      const over = isOverdue({ state: row.state, dueOn }, today);
      const text = say(language, over ? words.over : words.due, { day: plainDay(language, dueOn) });
      return {
        ...{ href: `/nonconformances/${row.id}`, text: `${row.reference} ${row.title}` },
        ...(who ? { detail: who } : {}),
        tag: { kind: over ? "bad" : "warn", mark: over ? "✕" : "▲", text },
      };
    });
}
