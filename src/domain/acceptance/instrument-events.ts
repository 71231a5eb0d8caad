// Requirement: an instrument that was overloaded, dropped or found off at a recheck is out of use
// from that moment until it passes a recheck or a calibration (ISO 6789-1:2017 5.3, from memory: a
// torque tool is checked again after an overload; for others common practice, no source).

import { localDay, localTime } from "../dates/zone-time.ts";
import type { InstrumentEventFacts, InstrumentFacts } from "../plan/context.ts";
import { type InstrumentState, unfit } from "./instrument-state.ts";

/**
 * Whether anything that happened to the instrument keeps it out of use at `takenAt` (RFC 3339); a
 * reading of the very moment counts as taken after it. Days are those of the site's calendar.
 */
export function stateByEvents(
  instrument: InstrumentFacts,
  takenAt: string,
  timeZone: string,
): InstrumentState {
  const { events = [] } = instrument;
  const before = events.filter(({ at }) => Date.parse(at) <= Date.parse(takenAt));
  const cleared = before.findLastIndex(({ kind }) => kind === "recheck-passed");
  const last = before.slice(cleared + 1).at(-1);
  if (!last || isCalibratedSince(instrument, last, takenAt, timeZone)) return { fit: true };
  return outOfUse(instrument.reference, last, timeZone);
}

/**
 * Only a calibration of a later day is surely after it: of one on the same day nobody knows, and a
 * recheck entered with its time says so.
 */
function isCalibratedSince(
  { calibrations }: InstrumentFacts,
  event: InstrumentEventFacts,
  takenAt: string,
  timeZone: string,
): boolean {
  const [from, to] = [localDay(event.at, timeZone), localDay(takenAt, timeZone)];
  return calibrations.some(({ on, passed }) => passed && on > from && on <= to);
}

const HAPPENED = {
  overload: { code: "instrument-overloaded", words: "was overloaded" },
  dropped: { code: "instrument-dropped", words: "was dropped" },
  "recheck-failed": { code: "instrument-recheck-failed", words: "failed its recheck" },
  "recheck-passed": { code: "", words: "" },
} as const;

function outOfUse(
  reference: string,
  { kind, at }: InstrumentEventFacts,
  timeZone: string,
): InstrumentState {
  const { code, words } = HAPPENED[kind];
  const when = localTime(at, timeZone).slice(0, 16).replace("T", " at ");
  return unfit(
    code,
    `${reference} ${words} on ${when} and had passed no recheck or later calibration since.`,
    "Read again with a sound instrument, or enter the recheck or calibration that it passed.",
  );
}
