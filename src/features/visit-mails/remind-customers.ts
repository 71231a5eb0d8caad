import { Temporal } from "temporal-polyfill";
import type { FirmTransaction } from "../../db/scope.ts";
import { reminderInstant } from "../../domain/calendar/reminder.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { readLetterMark } from "../firms/letter-mark.ts";
import { holidayDates, placeOfSite, weekendOf } from "../holidays/public-holidays.ts";
import { queueMail } from "../mail/store.ts";
import { listUnreminded, takeReminder } from "./reminder-store.ts";
import { lastTold, type ToldVisit } from "./telling-store.ts";
import { visitMail, type Writer } from "./visit-mail.ts";

/** No run of days off is longer than this. */
const DAYS_AHEAD = 14;

/** Writes the reminders that are due, each once; returns how many. */
export async function remindCustomers(tx: FirmTransaction, writer: Writer): Promise<number> {
  const { now, settings } = writer;
  if (!settings.reminder) return 0;
  const before = new Date(now.getTime() + DAYS_AHEAD * 86_400_000);
  let written = 0;
  for (const visit of await listUnreminded(tx, now, before)) {
    const due = dueOf(visit, writer);
    if (due > now || !(await takeReminder(tx, visit))) continue;
    // Told of these hours since the reminder was due, they need no second mail.
    const told = await lastTold(tx, visit.id);
    if (told?.startsAt === visit.startsAt.toISOString() && told.toldAt >= due) continue;
    const letter = { kind: "reminder" as const, visit, mark: await readLetterMark(tx) };
    await queueMail(tx, visitMail(letter, writer), now);
    written += 1;
  }
  return written;
}

function dueOf({ startsAt, job: { site } }: ToldVisit, { firm, settings }: Writer): Date {
  const start = startsAt.toISOString();
  const day = localDay(start, site.timeZone);
  const first = Temporal.PlainDate.from(day).subtract({ days: DAYS_AHEAD }).toString();
  const instant = reminderInstant(start, {
    siteZone: site.timeZone,
    firmZone: firm.timeZone,
    hour: settings.reminderHour,
    holidays: holidayDates(placeOfSite(site), first, day),
    weekend: weekendOf(site.country),
  });
  return new Date(instant);
}
