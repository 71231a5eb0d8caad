// Visits stay where they are when hours change: whoever changes them reads which lie outside now.
import type { FirmTransaction } from "../../db/scope.ts";
import { dayAt, dayHours } from "../../domain/scheduling/work-week.ts";
import { spanText } from "../visits/span.ts";
import { comingBookings } from "./outside-store.ts";
import { type Weeks, weekOf } from "./store.ts";

const LOOKED_AT_MOST = 500;
const SHOWN_MOST = 40;

/** Coming visits, the first of them, that begin before or end after the hours of who is booked. */
export async function visitsOutside(
  tx: FirmTransaction,
  weeks: Weeks,
  of: { from: Date; personId?: string | undefined },
) {
  const bookings = await comingBookings(tx, { ...of, most: LOOKED_AT_MOST });
  return bookings
    .flatMap(({ startsAt, endsAt, person, visit: { job } }) => {
      const { timeZone } = job.site;
      if (!person) return [];
      const day = dayAt(startsAt.getTime(), timeZone);
      const hours = dayHours(day, timeZone, [weekOf(weeks, person.id)]);
      if (hours && hours.startMs <= startsAt.getTime() && endsAt.getTime() <= hours.endMs) {
        return [];
      }
      const when = `${spanText({ startsAt, endsAt }, timeZone)} (${timeZone})`;
      return [{ name: person.name, jobId: job.id, reference: job.reference, when }];
    })
    .slice(0, SHOWN_MOST);
}
