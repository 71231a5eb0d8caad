// What the pages of absences show of a month, a refusal and a removal.
import type { FastifyReply, FastifyRequest } from "fastify";
import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { dayBounds } from "../../domain/dates/zone-time.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { longDay, monthName, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { withBlank } from "../../web/form.ts";
import { plansWork } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, sortedPage, sortingOf } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { todayOfFirm } from "../firms/today.ts";
import { staffByName } from "../people/staff-store.ts";
import { spanText } from "../visits/span.ts";
import { keptHolidays } from "../working-hours/kept-holidays.ts";
import { readWeeks, weekOf } from "../working-hours/store.ts";
import type { Refused, Typed } from "./absence-form.ts";
import { besideMonth, daysOfMonth, headOf, stretchesOf } from "./month-view.ts";
import { ABSENCE_REASONS } from "./schemas.ts";
import { type Absence, shown } from "./shown.ts";
import { absencesDuring, jobsOfVisits } from "./store.ts";

const STAFF_MOST = 500;

export interface Asked {
  month?: string | undefined;
  cursor?: string | undefined;
}

export interface Shown extends Partial<Refused> {
  typed: Typed;
  removed?: Absence;
}

export const reasonChoices = (language: ShownLanguage) =>
  ABSENCE_REASONS.map((value) => ({
    value,
    text: say(language, `absences.reason.${value}`),
    letter: say(language, `absences.letter.${value}`),
  }));

export async function showMonth(
  { db, now }: { db: Database; now(): Date },
  request: FastifyRequest,
  reply: FastifyReply,
  { asked, ...state }: Shown & { asked: Asked },
): Promise<FastifyReply> {
  const { language } = request;
  const session = signedIn(request);
  const mayEdit = plansWork(request);
  const own = mayEdit ? undefined : session.personId;
  const page = await inFirm(db, session.firmId, async (tx) => {
    const today = await todayOfFirm(tx, now());
    const month = asked.month ?? today.slice(0, 7);
    return {
      ...(await monthOf(tx, { ...asked, month, today, own, language })),
      staff: mayEdit ? await staffByName(tx, { most: STAFF_MOST }) : [],
      bookings: await bookingsOf(tx, state.booked ?? []),
    };
  });
  return sendPage(request, reply, "absences", {
    title: say(language, "absences.title"),
    ...{ ...page, ...state, mayEdit, styles: ["registry", "hours"] },
    staff: withBlank(
      page.staff.map(({ id, name }) => ({ value: id, text: name })),
      state.typed.personId,
    ),
    reasons: reasonChoices(language),
    removed: state.removed && toldRemoved(state.removed, page.timeZone, language),
  });
}

interface Wish extends Asked {
  month: string;
  today: string;
  own: string | undefined;
  language: ShownLanguage;
}

async function monthOf(tx: FirmTransaction, { month, today, own, language, cursor }: Wish) {
  const firm = await readFirm(tx);
  const { timeZone } = firm;
  const { after } = sortingOf({ cursor }, "name");
  const found = await staffByName(tx, { personId: own, after, most: A_PAGE + 1 });
  const { rows, list } = sortedPage(
    found.map((person) => ({ ...person, place: person.name })),
    { path: "/absences", columns: [], usual: "name", query: { month, cursor } },
  );
  const days = daysOfMonth(month);
  const [first = "", last = ""] = [days[0], days.at(-1)];
  const span = {
    startsAt: new Date(dayBounds(first, timeZone).start),
    endsAt: new Date(dayBounds(last, timeZone).end),
  };
  const ids = rows.map(({ id }) => id);
  const absences = (await absencesDuring(tx, span, ids)).map((row) => shown(row, timeZone));
  const weeks = await readWeeks(tx);
  const kept = await keptHolidays(tx, first, last);
  const ground = {
    ...{ days, language, areOff: firm.holidayCountry !== null },
    holidays: new Map(kept.map(({ day, name }) => [day, name])),
  };
  return {
    ...{ list, timeZone, month, head: headOf(ground, today) },
    monthName: monthName(language, month),
    before: besideMonth(month, -1),
    after: besideMonth(month, 1),
    people: rows.map(({ id, name }) => ({
      ...{ id, name },
      stretches: stretchesOf(
        ground,
        weekOf(weeks, id),
        absences.filter(({ person }) => person.id === id),
      ),
    })),
    holidays: kept.map((one) => ({ ...one, day: longDay(language, one.day) })),
    absences: absences.map((one) => ({ ...one, ...toldOf(one, timeZone, language) })),
  };
}

/** When and why, as the list and the month say it. */
export function toldOf(absence: Absence, timeZone: string, language: ShownLanguage) {
  const { from, to, isWholeDays, reason, startsAt, endsAt } = absence;
  const days = [from, to].map((day) => plainDay(language, day));
  const span = { startsAt: new Date(startsAt), endsAt: new Date(endsAt) };
  const whole = from === to ? days[0] : days.join(" – ");
  return {
    when: isWholeDays ? whole : spanText(span, timeZone),
    why: say(language, `absences.reason.${reason}`),
  };
}

const toldRemoved = (absence: Absence, timeZone: string, language: ShownLanguage) => ({
  ...absence,
  ...toldOf(absence, timeZone, language),
});

/** The visits that stand in the way, each with where it can be moved. */
export async function bookingsOf(tx: FirmTransaction, booked: Refused["booked"]) {
  if (booked.length === 0) return [];
  const { timeZone } = await readFirm(tx);
  const jobs = await jobsOfVisits(
    tx,
    booked.map(({ visitId }) => visitId),
  );
  return booked.map((visit) => ({
    jobId: jobs.get(visit.visitId),
    reference: visit.jobReference,
    when: spanText(visit, timeZone),
  }));
}
