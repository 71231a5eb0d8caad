// Requirement: inspections come round every so many months from a first day (product rule). A turn
// falls on the first day plus whole intervals, in a shorter month on its last day, and the next one
// on the old day again. Sources: RFC 7529 4.1 (RSCALE=GREGORIAN;FREQ=MONTHLY;SKIP=BACKWARD) and
// period.ts. Plain RFC 5545 rules leave such months out; a check that is due must not be left out.

import { addPeriod } from "../dates/period.ts";

export interface Recurrence {
  /** The first turn's day, YYYY-MM-DD; its turn has the number 0. */
  firstDueOn: string;
  everyMonths: number;
}

export interface Turn {
  number: number;
  dueOn: string;
}

/** The day of a turn. Throws RangeError for a number below 0 or an interval below 1 (bugs). */
export function turnDay({ firstDueOn, everyMonths }: Recurrence, number: number): string {
  if (!Number.isInteger(number) || number < 0) throw new RangeError("turns are numbered from 0");
  if (!Number.isInteger(everyMonths) || everyMonths < 1) {
    throw new RangeError("a recurrence comes round every whole number of months");
  }
  return addPeriod(firstDueOn, { months: everyMonths * number });
}

/** Turns from a number on that fall on a day or before it, at most so many. */
export function turnsThrough(
  recurrence: Recurrence,
  fromNumber: number,
  lastDay: string,
  most: number,
): Turn[] {
  const turns: Turn[] = [];
  for (let number = fromNumber; turns.length < most; number += 1) {
    const dueOn = turnDay(recurrence, number);
    if (dueOn > lastDay) break;
    turns.push({ number, dueOn });
  }
  return turns;
}
