import fc from "fast-check";
import type {
  Booked,
  DiaryCrew,
  DiaryInstrument,
  DiaryPerson,
  Wish,
} from "../../../src/domain/scheduling/diary-facts.ts";
import { USUAL_WEEK } from "../../../src/domain/scheduling/work-week.ts";

export const HOME = { latitudeDeg: 51.5, longitudeDeg: -2.5 };
/** About 27 minutes from HOME by the estimate of rounds/travel.ts. */
export const FAR = { latitudeDeg: 51.69, longitudeDeg: -2.5 };

export const ms = (text: string): number => Date.parse(text);

export const person = (id: string, fields: Partial<DiaryPerson> = {}): DiaryPerson => ({
  ...{ id, name: `Person ${id}`, week: USUAL_WEEK, away: [] },
  ...fields,
});

export const crew = (fields: Partial<DiaryCrew> = {}): DiaryCrew => ({
  ...{ id: "north", name: "North crew", people: [person("a"), person("b")], visits: [] },
  ...fields,
});

export const visit = (id: string, from: string, to: string, position = HOME): Booked => ({
  ...{ visitId: id, jobReference: `J-${id}`, startMs: ms(from), endMs: ms(to), position },
});

export const instrument = (fields: Partial<DiaryInstrument> = {}): DiaryInstrument => ({
  ...{ id: "loop", reference: "I-1", inDateTo: "2027-01-31", retiredOn: null, taken: [] },
  ...fields,
});

export const wish = (fields: Partial<Wish> = {}): Wish => ({
  ...{ minutes: 120, position: HOME, timeZone: "Europe/London", notBeforeMs: 0 },
  ...{ daysOff: new Set<string>(), requirements: [], held: [], instruments: [], base: null },
  ...fields,
});

const QUARTER_MS = 15 * 60_000;
/** Europe/London is two hours into its day when New York's clocks skip an hour, and so on. */
const DAYS = ["2026-03-28", "2026-03-29", "2026-06-10", "2026-10-25", "2026-11-01", "2026-04-05"];
const ZONES = ["Europe/London", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu"];
const PLACES = [HOME, FAR, { latitudeDeg: 51.55, longitudeDeg: -2.2 }];

const week = fc
  .uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 4, maxLength: 7 })
  .chain((days) =>
    fc
      .tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 11, max: 23 }))
      .map(([from, to]) =>
        days.map((weekday) => ({ weekday, from: clock(from, 0), to: clock(to, 45) })),
      ),
  );
const clock = (hour: number, minute: number): string =>
  `${String(hour).padStart(2, "0")}:${String(minute).padStart(2, "0")}`;

/** Anywhere from the evening before to the morning after, to the minute. */
const stretch = (day: string) =>
  fc
    .tuple(fc.integer({ min: -600, max: 2000 }), fc.integer({ min: 15, max: 400 }))
    .map(([startMin, lengthMin]) => {
      const startMs = ms(`${day}T00:00:00Z`) + startMin * 60_000;
      return { startMs, endMs: startMs + lengthMin * 60_000 };
    });

/** A wish, a crew and a day, with whatever may be in the way. */
export const anyDiary = fc
  .tuple(fc.constantFrom(...DAYS), fc.constantFrom(...ZONES))
  .chain(([day, timeZone]) =>
    fc
      .record({
        minutes: fc.integer({ min: 1, max: 40 }).map((quarters) => quarters * 15),
        place: fc.constantFrom(...PLACES),
        base: fc.constantFrom(null, ...PLACES),
        notBeforeMin: fc.integer({ min: -600, max: 1800 }),
        weeks: fc.array(week, { minLength: 1, maxLength: 3 }),
        visits: fc.array(fc.tuple(stretch(day), fc.constantFrom(...PLACES)), { maxLength: 4 }),
        away: fc.array(stretch(day), { maxLength: 2 }),
        taken: fc.array(stretch(day), { maxLength: 2 }),
      })
      .map((drawn) => ({ day, ...diaryOf(day, timeZone, drawn) })),
  );

interface Drawn {
  minutes: number;
  place: typeof HOME;
  base: typeof HOME | null;
  notBeforeMin: number;
  weeks: { weekday: number; from: string; to: string }[][];
  visits: [{ startMs: number; endMs: number }, typeof HOME][];
  away: { startMs: number; endMs: number }[];
  taken: { startMs: number; endMs: number }[];
}

function diaryOf(day: string, timeZone: string, drawn: Drawn) {
  const { minutes, place: position, base, notBeforeMin, weeks, visits, away, taken } = drawn;
  const people = weeks.map((one, index) =>
    person(`${index}`, {
      week: one,
      away: index === 0 ? away.map((span, at) => ({ absenceId: `${at}`, ...span })) : [],
    }),
  );
  const notBeforeMs = ms(`${day}T00:00:00Z`) + notBeforeMin * 60_000;
  const used = taken.map((span, at) => ({ visitId: `t${at}`, jobReference: "J-t", ...span }));
  return {
    crew: crew({
      people,
      visits: visits.map(([span, where], at) => ({
        ...{ visitId: `v${at}`, jobReference: `J-${at}`, position: where },
        ...span,
      })),
    }),
    wish: wish({
      ...{ minutes, position, timeZone, notBeforeMs, base },
      instruments: [instrument({ taken: used })],
    }),
  };
}

/** Every quarter of an hour that touches a day anywhere on earth. */
export function quartersAround(day: string): number[] {
  const first = ms(`${day}T00:00:00Z`) - 14 * 3_600_000;
  return Array.from({ length: 4 * 52 }, (_, index) => first + index * QUARTER_MS);
}
