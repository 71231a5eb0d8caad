// Requirement: a reading counts only when its instrument was in calibration on the day it was
// taken. The interval is counted like any period (period.ts); the due day itself is still in
// date, as the label "calibration due" is read in the trade (common practice, no source).

import { addPeriod } from "./period.ts";
import { plainDate } from "./plain-date.ts";

/** The last day on which an instrument calibrated on a day is in date, `months` above zero. */
export function calibrationDue(calibratedOn: string, months: number): string {
  if (!(months > 0)) throw new RangeError("A calibration interval is at least one month.");
  return addPeriod(calibratedOn, { months });
}

/**
 * Whether an instrument was in calibration on a day: from the day of calibration to the due
 * day, both included. All three are days of the form YYYY-MM-DD; others throw RangeError.
 */
export function isInCalibration(on: string, calibratedOn: string, dueOn: string): boolean {
  for (const day of [on, calibratedOn, dueOn]) plainDate(day);
  return calibratedOn <= on && on <= dueOn;
}
