// A year of warranties by month: what ends, what is to be registered, and the units of each.
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { monthName, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked } from "../../web/sorted-list.ts";
import { todayOfFirm } from "../firms/today.ts";
import { warrantyYear } from "./calendar.ts";
import { listDays } from "./calendar-store.ts";

const PATH = "/warranty/calendar";
const DAYS_MOST = 200;
const Query = z.object({
  year: asked(z.coerce.number().int().min(1990).max(2150)),
  month: asked(z.string().regex(/^\d{4}-(?:0[1-9]|1[0-2])$/)),
});

export const warrantyCalendarPages: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: { operationId: "warrantyCalendarPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { language } = request;
      const { month } = request.query;
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const today = await todayOfFirm(tx, now());
        const year = month ? Number(month.slice(0, 4)) : (request.query.year ?? yearOf(today));
        const [from, to] = month
          ? [`${month}-01`, lastDay(month)]
          : [`${year}-01-01`, `${year}-12-31`];
        const days = await listDays(tx, { from, to, now: now(), most: DAYS_MOST + 1 });
        return { today, year, days, months: await warrantyYear(tx, year, now()) };
      });
      const { year } = page;
      const most = Math.max(1, ...page.months.flatMap(({ register, ends }) => [register, ends]));
      return sendPage(request, reply, "warranty-calendar", {
        title: say(language, "warranty.calendar"),
        ...{ year, before: year - 1, after: year + 1, most, styles: ["registry"] },
        months: page.months.map((row) => ({
          ...{ ...row, name: monthName(language, row.month), current: row.month === month },
          isNow: page.today.startsWith(row.month),
        })),
        shownMonth: month && monthName(language, month),
        days: page.days.slice(0, DAYS_MOST).map((row) => ({
          ...{ ...row, when: plainDay(language, row.day), isEnd: row.kind === "ends" },
          isOver: row.day < page.today,
        })),
        isCut: page.days.length > DAYS_MOST,
      });
    },
  });
};

const yearOf = (day: string): number => Number(day.slice(0, 4));

/** The day before the first of the next month. */
function lastDay(month: string): string {
  const [year = 0, number = 0] = month.split("-").map(Number);
  return new Date(Date.UTC(year, number, 0)).toISOString().slice(0, 10);
}
