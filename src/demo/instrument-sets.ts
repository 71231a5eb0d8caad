// Which instruments there are, when they were calibrated, and which one a crew takes on a day.
import { Temporal } from "temporal-polyfill";
import {
  type InstrumentKind,
  KINDS,
  LAPSED,
  SETS,
  SPARE_SET,
  SPARES,
} from "./tables/instruments.ts";
import type { CrewKey } from "./tables/people.ts";

export interface CarriedInstrument {
  reference: string;
  kind: InstrumentKind;
  set: number;
  serial: string;
  /** Plain dates, the oldest first; each counts for twelve months. */
  calibratedOn: [string, string, string];
}

export function carriedInstruments(today: Temporal.PlainDate): CarriedInstrument[] {
  const carried = KINDS.flatMap((kind, index) => {
    const hasSpare = SPARES.some((spare) => spare === kind.instrumentClass);
    const sets = [...Object.values(SETS), ...(hasSpare ? [SPARE_SET] : [])];
    return sets.map((set) => ({ kind, set, daysAgo: daysSinceCalibration(kind, set, index) }));
  });
  return carried.map(({ kind, set, daysAgo }) => {
    const last = daysAgo === undefined ? lapsedOn(today) : today.subtract({ days: daysAgo });
    return {
      reference: `${kind.letters}-0${set}`,
      kind,
      set,
      serial: `${kind.letters}${4100 + set * 37}-${kind.name.length}`,
      calibratedOn: [back(last, 22), back(last, 11), last.toString()],
    };
  });
}

/** Undefined for the one that was let go past its day. */
function daysSinceCalibration(
  { instrumentClass }: InstrumentKind,
  set: number,
  index: number,
): number | undefined {
  if (instrumentClass === LAPSED.instrumentClass && set === LAPSED.set) return undefined;
  return 30 + ((index * 41 + set * 67) % 240);
}

const lapsedOn = (today: Temporal.PlainDate): Temporal.PlainDate =>
  today.subtract({ days: LAPSED.days }).subtract({ months: 12 });

const back = (day: Temporal.PlainDate, months: number): string =>
  day.subtract({ months }).toString();

/** What the crew has for each class on the day: its own where in date, else the spare. */
export function instrumentsOn(
  day: Temporal.PlainDate,
  crew: CrewKey,
  today: Temporal.PlainDate,
): Map<string, string> {
  const inDate = carriedInstruments(today).filter(({ calibratedOn }) =>
    calibratedOn.some((on) => on <= day.toString() && dueOf(on) >= day.toString()),
  );
  const ofSet = (set: number) =>
    inDate
      .filter((one) => one.set === set)
      .map((one): [string, string] => [one.kind.instrumentClass, one.reference]);
  return new Map([...ofSet(SPARE_SET), ...ofSet(SETS[crew])]);
}

const dueOf = (on: string): string => Temporal.PlainDate.from(on).add({ months: 12 }).toString();
