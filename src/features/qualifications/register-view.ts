// The register: who holds what, how long each still counts, and what runs out first.
import { daysBetween } from "../../domain/dates/plain-date.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { KindRow } from "./kind-store.ts";
import type { lastHeld } from "./page-store.ts";
import type { shown } from "./shown.ts";

/** How one stands on a day: over, running out, good, or good for ever. */
export function standingOf(
  { validTo, warnDays }: { validTo: string | null; warnDays: number },
  today: string,
  language: ShownLanguage,
) {
  if (validTo === null) {
    return { tag: "good", mark: "✓", text: say(language, "qualifications.noEnd") };
  }
  const days = daysBetween(today, validTo);
  const day = plainDay(language, validTo);
  if (days < 0)
    return { tag: "bad", mark: "✕", text: say(language, "qualifications.over", { day }) };
  if (days > warnDays) return { tag: "good", mark: "✓", text: day };
  return { tag: "warn", mark: "▲", text: say(language, "qualifications.runsOut", { day, days }) };
}

interface Ground {
  today: string;
  language: ShownLanguage;
}

/** A row a person, a cell a kind; empty where nothing is recorded. */
export function matrixOf(
  staff: readonly { id: string; name: string }[],
  kinds: readonly KindRow[],
  held: Awaited<ReturnType<typeof lastHeld>>,
  { today, language }: Ground,
) {
  const byPlace = new Map(held.map((one) => [`${one.personId} ${one.kindId}`, one]));
  return staff.map(({ id, name }) => ({
    ...{ id, name },
    cells: kinds.map((kind) => {
      const one = byPlace.get(`${id} ${kind.id}`);
      if (!one) return { kindId: kind.id, kindName: kind.name };
      const standing = standingOf({ ...one, warnDays: kind.warnDays }, today, language);
      return { kindId: kind.id, kindName: kind.name, id: one.id, standing };
    }),
  }));
}

export const lineOf = (
  row: ReturnType<typeof shown>,
  warnDays: number,
  { today, language }: Ground,
) => ({
  ...row,
  standing: standingOf({ validTo: row.validTo, warnDays }, today, language),
  from: plainDay(language, row.validFrom),
});
