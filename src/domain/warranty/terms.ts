// Requirement: a maker's warranty runs for a number of years from commissioning and ends sooner
// once its throughput is used up, and binds on conditions. Its last day is by Regulation (EEC,
// Euratom) No 1182/71 Article 3(2)(c): the same date, or the last day of a month without it.
// Which conditions makers set: common practice, no source.

import { businessDayOnOrAfter } from "../dates/business-days.ts";
import { addPeriod, periodEnd } from "../dates/period.ts";

/** What the maker of a product model promises, and on which conditions. */
export interface WarrantyTerms {
  readonly years: number;
  /** Energy delivered, in kWh, that ends the warranty before its last day. */
  readonly throughputKwh?: number;
  /** Days after commissioning within which the unit is registered with its maker. */
  readonly registerWithinDays?: number;
  /** Whether a claim needs the job's record complete. */
  readonly evidenceNeeded: boolean;
  /** Firmware to be reached within so many days of commissioning. */
  readonly firmware?: { readonly level: string; readonly withinDays: number };
  /** Range of cell or ambient temperature, in °C, both ends allowed. */
  readonly temperature?: { readonly lowest: number; readonly highest: number };
  /** Whether a last day on a day off moves to the next working day (Article 3(4)). */
  readonly endMovesToWorkingDay: boolean;
}

const NO_HOLIDAYS: ReadonlySet<string> = new Set();

/** The last day in warranty: the warranty still runs until the end of that day. */
export function warrantyEnd(
  terms: WarrantyTerms,
  commissionedOn: string,
  holidays: ReadonlySet<string> = NO_HOLIDAYS,
): string {
  const end = periodEnd(commissionedOn, { years: terms.years });
  return terms.endMovesToWorkingDay ? businessDayOnOrAfter(end, holidays) : end;
}

/** The last day on which registering is in time; undefined where the terms ask for none. */
export function registrationDeadline(
  terms: WarrantyTerms,
  commissionedOn: string,
): string | undefined {
  const days = terms.registerWithinDays;
  return days === undefined ? undefined : addPeriod(commissionedOn, { days });
}

/** The last day on which reaching the firmware level is in time. */
export function firmwareDeadline(terms: WarrantyTerms, commissionedOn: string): string | undefined {
  const days = terms.firmware?.withinDays;
  return days === undefined ? undefined : addPeriod(commissionedOn, { days });
}
