// Requirement: a reading counts only if its instrument was of the right class and in calibration on
// the day it was taken, by the site's calendar; the due day itself is still in date; and if nothing
// had happened to it since that puts it out of use.

import { localDay } from "../dates/zone-time.ts";
import type { InstrumentFacts } from "../plan/context.ts";
import { stateByEvents } from "./instrument-events.ts";
import { type InstrumentState, unfit } from "./instrument-state.ts";

export type { InstrumentState } from "./instrument-state.ts";

/**
 * Whether the instrument was fit for a reading, its cycles apart.
 * @param wantedClass class that the item asks for; undefined when it asks for none
 * @param takenAt RFC 3339 time of the reading, at a site in `timeZone`
 */
export function instrumentState(
  instrument: InstrumentFacts,
  wantedClass: string | undefined,
  takenAt: string,
  timeZone: string,
): InstrumentState {
  const { reference, retiredOn } = instrument;
  if (wantedClass !== undefined && instrument.class !== wantedClass) {
    return unfit(
      "instrument-class",
      `${reference} is a ${instrument.class}; this is read with a ${wantedClass}.`,
      `Read again with a ${wantedClass}.`,
    );
  }
  if (surelyInDate(instrument, takenAt)) return { fit: true };
  const day = localDay(takenAt, timeZone);
  if (retiredOn !== undefined && retiredOn <= day) {
    return unfit("instrument-retired", `${reference} was retired on ${retiredOn}.`, READ_AGAIN);
  }
  const fault = calibrationFault(instrument, day);
  if (fault) return unfit("instrument-out-of-calibration", fault, READ_AGAIN);
  return stateByEvents(instrument, takenAt, timeZone);
}

/** The latest calibration up to the day decides; of two on one day the later entry, as left. */
function calibrationFault(
  { reference, calibrations }: InstrumentFacts,
  day: string,
): string | undefined {
  let last: InstrumentFacts["calibrations"][number] | undefined;
  for (const calibration of calibrations) {
    if (calibration.on <= day && (!last || calibration.on >= last.on)) last = calibration;
  }
  if (!last) return `${reference} had no calibration on ${day}.`;
  if (!last.passed) return `${reference} failed its calibration of ${last.on}.`;
  if (last.due >= day) return undefined;
  return `${reference} was out of calibration: due ${last.due}, read on ${day}.`;
}

const READ_AGAIN = "Read again with an instrument in calibration, or enter the calibration it has.";

/**
 * Months as "2026-04": a time written in one from `first` on and before `end` is surely in date.
 */
interface SureMonths {
  first: string;
  end: string;
}

/** The same for every reading that is taken with the instrument. */
const sureMonths = new WeakMap<InstrumentFacts, SureMonths>();
const NEVER: SureMonths = { first: "~", end: "" };

/** No zone moves a time by more than two days: a month from both ends no calendar is needed. */
function surelyInDate(instrument: InstrumentFacts, takenAt: string): boolean {
  let months = sureMonths.get(instrument);
  if (!months) {
    months = sureMonthsOf(instrument);
    sureMonths.set(instrument, months);
  }
  return takenAt > months.first && takenAt < months.end;
}

function sureMonthsOf({ calibrations, retiredOn, events = [] }: InstrumentFacts): SureMonths {
  const [only, ...others] = calibrations;
  if (!only?.passed || others.length > 0 || retiredOn !== undefined) return NEVER;
  if (events.length > 0) return NEVER;
  return { first: shifted(only.on, 2), end: shifted(only.due, -1) };
}

/** The month of a date, so many months on. */
function shifted(date: string, months: number): string {
  const count = Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7)) - 1 + months;
  const year = String(Math.floor(count / 12)).padStart(4, "0");
  return `${year}-${String((count % 12) + 1).padStart(2, "0")}`;
}
