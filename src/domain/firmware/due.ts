// Requirement: due = installed, and below the level that applies (product rule). A unit whose level
// is not known, or cannot be ordered, is said to be so: it is never counted as up to date.

import type { Temporal } from "temporal-polyfill";
import { plainDate } from "./deadline.ts";
import { compareLevels, type FirmwareScheme } from "./levels.ts";

/** The one unit state in which firmware can be due; received, swapped and removed ones are not. */
export const INSTALLED_STATE = "installed";

export type DueInput = {
  /** Level last read off the unit; null where none was. */
  level: string | null;
  scheme: FirmwareScheme;
  targetLevel: string;
  /** The unit's state; only INSTALLED_STATE counts as installed. */
  state: string;
  /** Last day on time, YYYY-MM-DD. */
  deadline: string;
  /** The day asked about, YYYY-MM-DD in the firm's time zone. */
  today: string;
};

export type DueState =
  | { state: "up-to-date"; sentence: string }
  | { state: "due"; daysLeft: number; sentence: string }
  | { state: "overdue"; daysOver: number; sentence: string }
  | { state: "unknown-level"; sentence: string }
  | { state: "not-orderable"; sentence: string }
  | { state: "not-installed"; sentence: string };

/**
 * Where one unit stands against its model's target. `daysLeft` counts whole calendar days and is 0
 * on the deadline itself, which is still on time; `daysOver` starts at 1 the day after.
 * Throws RangeError where `deadline` or `today` is no date: the caller made those, not a person.
 */
export function dueState(input: DueInput): DueState {
  const { level, scheme, targetLevel } = input;
  if (input.state !== INSTALLED_STATE) {
    return { state: "not-installed", sentence: "Not installed: no firmware is due on it." };
  }
  if (level === null || level === "") {
    const sentence = `No firmware level was read off this unit yet; ${targetLevel} is required.`;
    return { state: "unknown-level", sentence };
  }
  const compared = compareLevels(scheme, level, targetLevel);
  if (!compared.ok) {
    const sentence = `${compared.problem} Compare it with ${targetLevel} by hand.`;
    return { state: "not-orderable", sentence };
  }
  if (compared.order >= 0) {
    const sentence = `Level ${level} meets the required ${targetLevel}.`;
    return { state: "up-to-date", sentence };
  }
  return below(input, level);
}

function below(input: DueInput, level: string): DueState {
  const days = date(input.today).until(date(input.deadline), { largestUnit: "days" }).days;
  const start = `Level ${level} is below the required ${input.targetLevel}`;
  if (days < 0) {
    const sentence = `${start}: ${count(-days)} past the deadline of ${input.deadline}.`;
    return { state: "overdue", daysOver: -days, sentence };
  }
  const left = days === 0 ? "today is the last day" : `${count(days)} left`;
  const sentence = `${start}: due by ${input.deadline}, ${left}.`;
  return { state: "due", daysLeft: days, sentence };
}

function count(days: number): string {
  return days === 1 ? "1 day" : `${days} days`;
}

function date(text: string): Temporal.PlainDate {
  const parsed = plainDate(text);
  if (!parsed) throw new RangeError(`"${text}" is no YYYY-MM-DD date`);
  return parsed;
}
