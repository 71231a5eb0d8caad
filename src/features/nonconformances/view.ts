import { isOverdue, nextStep, type Step, stepStates } from "../../domain/corrective/follow-up.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { listEffectChecks } from "./effect-store.ts";
import type { KINDS, STATES } from "./schemas.ts";
import type { findNonconformance } from "./store.ts";

type Row = NonNullable<Awaited<ReturnType<typeof findNonconformance>>>;
type Checks = Awaited<ReturnType<typeof listEffectChecks>>;

export const kindName = (language: ShownLanguage, kind: string): string =>
  say(language, `nonconformance.kind.${kind as (typeof KINDS)[number]}`);

const MARKS = {
  done: { tag: "good", mark: "✓" },
  next: { tag: "warn", mark: "▲" },
  later: { tag: "plain", mark: "–" },
} as const;

/** One nonconformance as its page shows it: the steps in their order, each with how it stands. */
export function shownFollowUp(row: Row, language: ShownLanguage, today: string) {
  const dayOf = (date: Date | null) => date?.toISOString().slice(0, 10) ?? null;
  const effectDueOn = dayOf(row.effectDueOn);
  const closed = row.state === "closed";
  return {
    stateName: say(language, `nonconformance.state.${row.state as (typeof STATES)[number]}`),
    closed,
    steps: Object.fromEntries(
      stepStates(row).map(({ step, standing }) => [step, stepOf(row, step, standing, language)]),
    ),
    next: closed ? undefined : nextStep(row),
    opened: plainDay(language, row.openedAt.toISOString().slice(0, 10)),
    effectDue: effectDueOn && plainDay(language, effectDueOn),
    effectOverdue: isOverdue({ state: row.state, dueOn: effectDueOn }, today),
    mayJudge: Boolean(row.cause && row.correction),
    asKept: {
      ...{ title: row.title, cause: row.cause, containment: row.containment },
      ...{ correction: row.correction, ownerId: row.ownerId, effectById: row.effectById },
      ...{ dueOn: dayOf(row.dueOn), effectDueOn, version: row.version },
    },
  };
}

function stepOf(row: Row, step: Step, standing: keyof typeof MARKS, language: ShownLanguage) {
  const standingName = say(language, `nonconformance.step.${standing}`);
  return { ...MARKS[standing], standing, standingName, text: row[step] };
}

export const shownChecks = (checks: Checks, language: ShownLanguage, timeZone: string) =>
  checks.map((check) => ({
    ...{ note: check.note, cause: check.cause, correction: check.correction },
    isEffective: check.verdict === "effective",
    by: check.checkedBy.name,
    at: dayAndTime(language, check.checkedAt, timeZone),
  }));
