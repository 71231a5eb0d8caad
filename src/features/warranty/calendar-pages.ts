// A year of warranties by month: what ends, what is to be registered, and the units of each.
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { monthName, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { todayOfFirm } from "../firms/today.ts";
import { CalendarYear, DAY_FILTERS, periodOf, warrantyYear } from "./calendar.ts";
import { DAY_COLUMNS, DAY_KINDS, sortedDays } from "./calendar-sorted-store.ts";

const PATH = "/warranty/calendar";
const USUAL = "day";
const Query = z.object({ ...sortedQuery(DAY_COLUMNS), ...DAY_FILTERS });

export const warrantyCalendarPages: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: { operationId: "warrantyCalendarPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { language, query } = request;
      const { month, kind } = query;
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const today = await todayOfFirm(tx, now());
        const { year, ...period } = periodOf(query, today);
        const asks = { sorting: sortingOf(query, USUAL), most: A_PAGE + 1, now: now() };
        const found = await sortedDays(tx, { ...period, kind }, asks);
        return { today, year, found, months: await warrantyYear(tx, year, now()) };
      });
      const { year, today } = page;
      const { rows, list } = sortedPage(page.found, {
        ...{ path: PATH, columns: DAY_COLUMNS, usual: USUAL, part: "days" },
        query: month ? query : { ...query, year },
        exportPath: "/api/v1/exports/warranty-days.csv",
      });
      const most = Math.max(1, ...page.months.flatMap(({ register, ends }) => [register, ends]));
      return sendPage(request, reply, "warranty-calendar", {
        title: say(language, "warranty.calendar"),
        ...{ year, before: yearAt(year - 1), after: yearAt(year + 1) },
        ...{ most, styles: ["registry"], month, list },
        months: page.months.map((row) => ({
          ...{ ...row, name: monthName(language, row.month), current: row.month === month },
          isNow: today.startsWith(row.month),
        })),
        shownMonth: month && monthName(language, month),
        kinds: DAY_KINDS.map((value) => ({
          ...{ value, text: say(language, `warranty.dayKind.${value}`), chosen: value === kind },
        })),
        filtered: kind !== undefined,
        days: rows.map((row) => ({
          ...{ ...row, when: plainDay(language, row.day), isEnd: row.kind === "ends" },
          isOver: row.day < today,
        })),
      });
    },
  });
};

/** Undefined where the calendar does not go that far. */
const yearAt = (year: number): number | undefined => CalendarYear.safeParse(year).data;
