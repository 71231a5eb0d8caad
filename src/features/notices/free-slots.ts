import { Temporal } from "temporal-polyfill";
import { localTimeToInstant } from "../../domain/dates/zone-time.ts";

/** Common practice: a visit with its drive does not fit into less. */
const SLOT_LEAST_MIN = 120;
const HOURS = { from: "08:00", to: "17:00" };
const DAYS_LOOKED_AT = 10;
export const SLOTS_MOST = 4;

export interface FreeSlot {
  day: string;
  from: Date;
  to: Date;
}

/** The first stretches of the coming working days in which nothing is booked. */
export function freeSlots(
  day: string,
  timeZone: string,
  booked: readonly { startsAt: Date; endsAt: Date }[],
): FreeSlot[] {
  const slots: FreeSlot[] = [];
  for (let ahead = 1; ahead <= DAYS_LOOKED_AT && slots.length < SLOTS_MOST; ahead += 1) {
    const date = Temporal.PlainDate.from(day).add({ days: ahead });
    if (date.dayOfWeek > 5) continue;
    const text = date.toString();
    const [from, to] = [momentOf(text, HOURS.from, timeZone), momentOf(text, HOURS.to, timeZone)];
    slots.push(...gaps(from, to, booked).map((gap) => ({ day: text, ...gap })));
  }
  return slots.slice(0, SLOTS_MOST);
}

/** How far ahead bookings matter to it. */
export const looksAhead = (day: string, timeZone: string): { from: Date; to: Date } => ({
  from: momentOf(day, "00:00", timeZone),
  to: momentOf(
    Temporal.PlainDate.from(day)
      .add({ days: DAYS_LOOKED_AT + 1 })
      .toString(),
    "00:00",
    timeZone,
  ),
});

function gaps(from: Date, to: Date, booked: readonly { startsAt: Date; endsAt: Date }[]) {
  const found: { from: Date; to: Date }[] = [];
  let at = from.getTime();
  for (const { startsAt, endsAt } of [...booked, { startsAt: to, endsAt: to }]) {
    const end = Math.min(startsAt.getTime(), to.getTime());
    if (end - at >= SLOT_LEAST_MIN * 60_000) found.push({ from: new Date(at), to: new Date(end) });
    at = Math.max(at, endsAt.getTime());
  }
  return found;
}

function momentOf(day: string, clock: string, timeZone: string): Date {
  const found = localTimeToInstant(`${day}T${clock}`, timeZone);
  if (!found.ok) throw new Error(found.problem);
  return new Date(found.instant);
}
