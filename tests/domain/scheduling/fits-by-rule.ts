import { type DiaryCrew, driveMin, type Wish } from "../../../src/domain/scheduling/diary-facts.ts";
import type { HOME } from "./diaries.ts";

const formats = new Map<string, Intl.DateTimeFormat>();
function formatOf(timeZone: string): Intl.DateTimeFormat {
  const kept = formats.get(timeZone);
  if (kept) return kept;
  const format = new Intl.DateTimeFormat("sv-SE", {
    ...({ timeZone, hourCycle: "h23" } as const),
    ...({ year: "numeric", month: "2-digit", day: "2-digit" } as const),
    ...({ hour: "2-digit", minute: "2-digit", second: "2-digit" } as const),
  });
  formats.set(timeZone, format);
  return format;
}

/**
 * The local day and time of day by Intl.DateTimeFormat (ECMA-402), not by the code under test; the
 * Swedish form is "2026-03-29 08:00:00".
 */
export function localParts(moment: number, timeZone: string): { day: string; clock: string } {
  const [day = "", clock = ""] = formatOf(timeZone).format(moment).split(" ");
  return { day, clock };
}

export const ofDay = (from: number, to: number, day: string, timeZone: string): boolean => {
  const [first, last] = [localParts(from, timeZone), localParts(to - 1, timeZone)];
  return first.day <= day && day <= last.day;
};

/**
 * The rule read aloud, for one start at a time: no bars, no sorting. Its working hours are tried
 * minute by minute, but for the end, which is 23:59 at most.
 */
export function fits(
  asked: Wish,
  { people, visits }: DiaryCrew,
  day: string,
  startMs: number,
): boolean {
  const { timeZone, base, position } = asked;
  const endMs = startMs + asked.minutes * 60_000;
  if (startMs < asked.notBeforeMs) return false;
  const weekday = new Date(`${day}T12:00:00Z`).getUTCDay() || 7;
  const isAtWork = (moment: number, isEnd: boolean): boolean => {
    const local = localParts(moment, timeZone);
    return people.every(({ week }) => {
      const hours = week.find((one) => one.weekday === weekday);
      if (!hours || local.day !== day) return false;
      const [from, to] = [`${hours.from}:00`, `${hours.to}:00`];
      return isEnd ? local.clock <= to : from <= local.clock && local.clock < to;
    });
  };
  for (let at = startMs; at < endMs; at += 15 * 60_000) if (!isAtWork(at, false)) return false;
  if (!isAtWork(endMs, true)) return false;
  const drive = (from: typeof HOME | null, to: typeof HOME | null) =>
    from && to ? driveMin(from, to) * 60_000 : 0;
  for (const one of visits) {
    const isBefore = one.endMs + drive(one.position, position) <= startMs;
    const isAfter = endMs + drive(position, one.position) <= one.startMs;
    if (!isBefore && !isAfter) return false;
  }
  const spans = [
    ...people.flatMap(({ away }) => away),
    ...asked.instruments.flatMap(({ taken }) => taken),
  ];
  if (spans.some((one) => one.startMs < endMs && startMs < one.endMs)) return false;
  return fitsBase(asked, visits, day, startMs, endMs, isAtWork, drive(base, position));
}

/** A first visit of the day leaves room for the drive from the base at work, a last one home. */
function fitsBase(
  { timeZone }: Wish,
  visits: DiaryCrew["visits"],
  day: string,
  startMs: number,
  endMs: number,
  isAtWork: (moment: number, isEnd: boolean) => boolean,
  drive: number,
): boolean {
  const others = visits.filter((one) => ofDay(one.startMs, one.endMs, day, timeZone));
  const isFirst = !others.some((one) => one.endMs <= startMs);
  const isLast = !others.some((one) => one.startMs >= endMs);
  const out = !isFirst || isAtWork(startMs - drive, false);
  return out && (!isLast || isAtWork(endMs + drive, true));
}
