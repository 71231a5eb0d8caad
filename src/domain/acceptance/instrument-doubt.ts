// Requirement: an instrument that is found out of tolerance, or turns out to have been overloaded,
// casts doubt on what was read with it before that was known; those readings are found and told,
// while what was judged stays as it was (ISO 9001:2015 7.1.5.2, ISO 10012:2003 8.3.3 and ISO/IEC
// 17025:2017 7.10, all from memory).

import { addPeriod } from "../dates/period.ts";
import type { InstrumentFacts } from "../plan/context.ts";

export type DoubtCause = "calibration-failed" | "recheck-failed" | "overload" | "dropped";

/**
 * Readings in doubt: those within all of the bounds that are given. Days are as written at the
 * place, and the first day counts whole: nobody knows the hour of a calibration.
 */
export interface DoubtSpan {
  cause: DoubtCause;
  /** Day of the calibration, or time of the event. */
  found: string;
  fromDay?: string;
  fromAt?: string;
  beforeDay?: string;
  beforeAt?: string;
}

type Facts = Pick<InstrumentFacts, "calibrations" | "events">;

/**
 * Spans of readings that the instrument's calibrations and events cast doubt on. What was found
 * out of tolerance reaches back to the last passed calibration; an overload begins with itself.
 * Both end with the next passed calibration, or for an event with a passed recheck.
 */
export function doubtSpans(facts: Facts): DoubtSpan[] {
  const failed = facts.calibrations
    .filter(({ passed }) => !passed)
    .map(({ on }) => spanOfCalibration(facts, on));
  const happened = (facts.events ?? []).flatMap((_event, index) => spanOfEvent(facts, index) ?? []);
  return [...failed, ...happened];
}

/** The first of the instrument's doubts about a reading taken at `takenAt`, RFC 3339. */
export function doubtOn(spans: readonly DoubtSpan[], takenAt: string): DoubtSpan | undefined {
  return spans.find((span) => isInSpan(span, takenAt));
}

/** Whether a reading taken at `takenAt`, RFC 3339 with the offset of the place, is in the span. */
export function isInSpan(span: DoubtSpan, takenAt: string): boolean {
  const { fromDay, fromAt, beforeDay, beforeAt } = span;
  const day = takenAt.slice(0, 10);
  const time = Date.parse(takenAt);
  if (fromDay !== undefined && day < fromDay) return false;
  if (beforeDay !== undefined && day >= beforeDay) return false;
  if (fromAt !== undefined && time < Date.parse(fromAt)) return false;
  return beforeAt === undefined || time < Date.parse(beforeAt);
}

/** What a doubt is called beside a reading. */
export function doubtWords({ cause, found }: DoubtSpan): string {
  const when = found.slice(0, 16).replace("T", " at ");
  switch (cause) {
    case "calibration-failed":
    case "recheck-failed":
      return `instrument later found out of tolerance (${when})`;
    case "overload":
      return `instrument later found overloaded (${when}) and not rechecked before this reading`;
    case "dropped":
      return `instrument later found dropped (${when}) and not rechecked before this reading`;
  }
}

/** What a calibration that failed on a day casts doubt on. */
export function spanOfCalibration({ calibrations }: Facts, on: string): DoubtSpan {
  const next = earliest(calibrations.filter(({ passed, on: other }) => passed && other >= on));
  const before = next === on ? addPeriod(on, { days: 1 }) : next;
  return {
    cause: "calibration-failed",
    found: on,
    ...lastPassed(calibrations, on),
    ...until(before),
  };
}

/** What the event of this place in the list casts doubt on; a passed recheck on nothing. */
export function spanOfEvent(
  { calibrations, events = [] }: Facts,
  index: number,
): DoubtSpan | undefined {
  const event = events[index];
  if (!event || event.kind === "recheck-passed") return undefined;
  const { kind, at } = event;
  const day = at.slice(0, 10);
  const recheck = events.slice(index + 1).find((later) => later.kind === "recheck-passed");
  const next = earliest(calibrations.filter(({ passed, on }) => passed && on > day));
  const from =
    kind === "recheck-failed"
      ? lastPassed(calibrations, addPeriod(day, { days: 1 }))
      : { fromAt: at };
  const to = { ...until(next), ...(recheck ? { beforeAt: recheck.at } : {}) };
  return { cause: kind, found: at, ...from, ...to };
}

const until = (day: string | undefined) => (day === undefined ? {} : { beforeDay: day });

function lastPassed(calibrations: Facts["calibrations"], before: string): { fromDay?: string } {
  const days = calibrations.filter(({ on, passed }) => passed && on < before).map(({ on }) => on);
  const last = days.sort().at(-1);
  return last === undefined ? {} : { fromDay: last };
}

const earliest = (calibrations: Facts["calibrations"]): string | undefined =>
  calibrations.map(({ on }) => on).sort()[0];
