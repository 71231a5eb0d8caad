// Requirement: where a warranty ends at a throughput, say how much is used and when it will be
// used up if the unit goes on as so far. The projection is a straight line from commissioning to
// the latest reading: a plain rule of three, no claim about ageing.

import { addPeriod } from "../dates/period.ts";
import { daysBetween } from "../dates/plain-date.ts";

/** A meter's total on a day, in kWh delivered since commissioning. */
export interface ThroughputReading {
  readonly on: string;
  readonly kwh: number;
}

/** What a unit has delivered and, at the same pace, will have by its last day. */
export interface Throughput {
  readonly usedKwh: number;
  readonly readOn: string;
  readonly projectedKwh: number;
  /** The first day on which the limit is reached at this pace; only where there is a limit. */
  readonly limitOn?: string;
}

/** Days beyond which a projected day says nothing. */
const HORIZON_DAYS = 36_525;

/**
 * Throughput by the latest reading from commissioning on; undefined without one. A reading on
 * the day of commissioning has no pace, so nothing more than it is projected.
 */
export function throughput(
  readings: readonly ThroughputReading[],
  commissionedOn: string,
  endsOn: string,
  limitKwh?: number,
): Throughput | undefined {
  const latest = latestFrom(readings, commissionedOn);
  if (!latest) return undefined;
  const days = daysBetween(commissionedOn, latest.on);
  const perDay = days === 0 ? 0 : latest.kwh / days;
  const left = Math.max(0, daysBetween(latest.on, endsOn));
  const limitOn = limitDay(perDay, commissionedOn, latest, limitKwh);
  return {
    usedKwh: latest.kwh,
    readOn: latest.on,
    projectedKwh: latest.kwh + perDay * left,
    ...(limitOn === undefined ? {} : { limitOn }),
  };
}

function latestFrom(readings: readonly ThroughputReading[], from: string) {
  let latest: ThroughputReading | undefined;
  for (const reading of readings) {
    if (reading.on >= from && (!latest || reading.on >= latest.on)) latest = reading;
  }
  return latest;
}

function limitDay(perDay: number, start: string, latest: ThroughputReading, limitKwh?: number) {
  if (limitKwh === undefined) return undefined;
  if (latest.kwh >= limitKwh) return latest.on;
  const days = Math.ceil(limitKwh / perDay);
  return days <= HORIZON_DAYS ? addPeriod(start, { days }) : undefined;
}
