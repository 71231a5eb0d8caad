// The package's data is held against lists and rules from elsewhere: gov.uk's list of bank holidays
// (from memory), 5 U.S.C. 6103 with Executive Order 11582 (in lieu of a day off), Code du travail
// L3133-1 (from memory), and Easter by the algorithm in Meeus, Astronomical Algorithms, ch. 8.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  holidayDates,
  placeOfSite,
  publicHolidays,
  weekendOf,
} from "../../src/features/holidays/public-holidays.ts";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const anyone = () => service.as(service.firm.people.auditor);

const utc = (year: number, month: number, day: number) => new Date(Date.UTC(year, month - 1, day));
const text = (date: Date) => date.toISOString().slice(0, 10);
const plus = (date: Date, days: number) => new Date(date.getTime() + days * 86_400_000);
const isWeekday = (date: string) => ![0, 6].includes(new Date(date).getUTCDay());
const years = Array.from({ length: 2070 - 2000 + 1 }, (_, at) => 2000 + at);

/** Gregorian Easter: Meeus, Astronomical Algorithms, ch. 8 (Butcher's rule), from memory. */
function easter(year: number): Date {
  const a = year % 19;
  const b = Math.floor(year / 100);
  const c = year % 100;
  const d = Math.floor(b / 4);
  const g = Math.floor((b - Math.floor((b + 8) / 25) + 1) / 3);
  const h = (19 * a + b - d - g + 15) % 30;
  const l = (32 + 2 * (b % 4) + 2 * Math.floor(c / 4) - h - (c % 4)) % 7;
  const m = Math.floor((a + 11 * h + 22 * l) / 451);
  const month = Math.floor((h + l - 7 * m + 114) / 31);
  return utc(year, month, ((h + l - 7 * m + 114) % 31) + 1);
}

/** The n-th such weekday of a month (Sunday 0); the last one for -1. */
function nth(year: number, month: number, weekday: number, n: number): Date {
  const first = n > 0 ? utc(year, month, 1) : utc(year, month + 1, 0);
  const off =
    n > 0 ? (weekday - first.getUTCDay() + 7) % 7 : -((first.getUTCDay() - weekday + 7) % 7);
  return plus(first, off + (n > 0 ? 7 * (n - 1) : 0));
}

/** 5 U.S.C. 6103(a) as of 2021; on a Saturday the Friday before, on a Sunday the Monday after. */
function federalHolidays(year: number): string[] {
  const fixed = [
    utc(year, 1, 1),
    utc(year, 6, 19),
    utc(year, 7, 4),
    utc(year, 11, 11),
    utc(year, 12, 25),
  ];
  const moved = [...fixed, utc(year + 1, 1, 1)].map((date) =>
    plus(date, date.getUTCDay() === 6 ? -1 : date.getUTCDay() === 0 ? 1 : 0),
  );
  const mondays = [nth(year, 1, 1, 3), nth(year, 2, 1, 3), nth(year, 5, 1, -1), nth(year, 9, 1, 1)];
  const all = [...moved, ...mondays, nth(year, 10, 1, 2), nth(year, 11, 4, 4)].map(text);
  return [...new Set(all)].filter((date) => date.startsWith(`${year}`)).sort();
}

describe("public holidays", () => {
  test("of England in 2026 are gov.uk's, weekends aside", async () => {
    const reply = await anyone().get("/api/v1/holidays?country=GB&region=ENG&year=2026");
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    const dates = reply.body.items.map(({ date }: { date: string }) => date).filter(isWeekday);
    expect(dates).toEqual([
      "2026-01-01",
      "2026-04-03",
      "2026-04-06",
      "2026-05-04",
      "2026-05-25",
      "2026-08-31",
      "2026-12-25",
      "2026-12-28",
    ]);
    const substitute = reply.body.items.find(({ date }: { date: string }) => date === "2026-12-28");
    expect(substitute).toMatchObject({ isSubstitute: true, isHalfDay: false });
    const codes = reply.body.regions.map(({ code }: { code: string }) => code);
    expect(codes).toEqual(expect.arrayContaining(["ENG", "NIR", "SCT", "WLS"]));
  });

  test("of Northern Ireland have two more: 17 March, and 13 July for the 12th (a Sunday)", () => {
    const days = (region: string) =>
      publicHolidays({ country: "GB", region }, 2026)
        .map(({ date }) => date)
        .filter(isWeekday);
    const more = days("NIR").filter((date) => !days("ENG").includes(date));
    expect(more).toEqual(["2026-03-17", "2026-07-13"]);
  });

  test("of the United States are those of 5 U.S.C. 6103, weekends aside, 2022 to 2070", () => {
    for (const year of years.filter((one) => one >= 2022)) {
      const dates = publicHolidays({ country: "US" }, year).map(({ date }) => date);
      expect(dates.filter(isWeekday), String(year)).toEqual(federalHolidays(year));
    }
  });

  test("on which banks and offices alone close are told and not counted as days off", () => {
    // Veterans Day 2023 was a Saturday; Executive Order 11582 gave federal offices the Friday.
    const friday = publicHolidays({ country: "US" }, 2023).find(
      ({ date }) => date === "2023-11-10",
    );
    expect(friday?.kind).toBe("bank");
    const off = holidayDates({ country: "US" }, "2023-11-01", "2023-11-30");
    expect([off.has("2023-11-10"), off.has("2023-11-23")]).toEqual([false, true]);
  });

  test("of France are the eleven of Code du travail L3133-1, for Easter see below", () => {
    for (const year of years) {
      const sunday = easter(year);
      const moving = [1, 39, 50].map((days) => text(plus(sunday, days)));
      const fixed = ["01-01", "05-01", "05-08", "07-14", "08-15", "11-01", "11-11", "12-25"];
      const expected = [...new Set([...moving, ...fixed.map((day) => `${year}-${day}`)])].sort();
      const dates = publicHolidays({ country: "FR" }, year).map(({ date }) => date);
      expect(dates, String(year)).toEqual(expected);
    }
  });

  test("of England hold Good Friday and Easter Monday by Meeus's algorithm, 2000 to 2070", () => {
    expect([2000, 2024, 2026, 2038].map((year) => text(easter(year)))).toEqual([
      "2000-04-23",
      "2024-03-31",
      "2026-04-05",
      "2038-04-25",
    ]);
    for (const year of years) {
      const dates = publicHolidays({ country: "GB", region: "ENG" }, year).map(({ date }) => date);
      for (const days of [-2, 1]) expect(dates).toContain(text(plus(easter(year), days)));
    }
  });

  test("that last half a day are told and not counted as days off (Iceland, 24 December)", () => {
    const place = { country: "IS" };
    const eve = publicHolidays(place, 2026).find(({ date }) => date === "2026-12-24");
    expect(eve?.isHalfDay).toBe(true);
    const off = holidayDates(place, "2026-12-01", "2026-12-31");
    expect([off.has("2026-12-24"), off.has("2026-12-25")]).toEqual([false, true]);
  });

  test("of several days count each of them, and a day on which clocks change is one day", () => {
    const feast = publicHolidays({ country: "TR" }, 2026).filter(({ date }) => /-03-2/.test(date));
    expect(feast.map(({ date }) => date)).toEqual([
      "2026-03-20",
      "2026-03-21",
      "2026-03-22",
      "2026-03-23",
    ]);
    const australia = publicHolidays({ country: "AU" }, 2026).filter(
      ({ name }) => name === "Easter Sunday",
    );
    expect(australia.map(({ date }) => date)).toEqual(["2026-04-05"]);
  });

  test.each([
    ["country=XX&year=2026", "/query/country"],
    ["country=_p&year=2026", "/query/country"],
    ["country=GB&region=TX&year=2026", "/query/region"],
    ["country=GB&region=__proto__&year=2026", "/query/region"],
    ["country=GB&year=1999", "/query/year"],
    ["country=GB&year=2071", "/query/year"],
    ["year=2026", "/query/country"],
  ])("are refused where nothing is known: %s", async (query, pointer) => {
    const reply = await anyone().get(`/api/v1/holidays?${query}`);
    expect([reply.status, pointersOf(reply)]).toEqual([422, [pointer]]);
  });

  test.each([2000, 2070])("are known at both ends of the years: %d", async (year) => {
    const reply = await anyone().get(`/api/v1/holidays?country=GB&year=${year}`);
    expect(reply.body.items.length).toBeGreaterThan(5);
  });
});

describe("the place of a site", () => {
  test.each([
    [
      { country: "GB", region: "sct" },
      { country: "GB", region: "SCT" },
    ],
    [{ country: "GB", region: "uk" }, { country: "GB" }],
    [
      { country: "FR", region: "67" },
      { country: "FR", region: "67" },
    ],
  ])("%o has the holidays of %o", (site, place) => {
    expect(placeOfSite(site)).toEqual(place);
  });

  test("has the weekend of its country by Unicode CLDR", () => {
    expect([...weekendOf("GB")].sort()).toEqual([6, 7]);
    expect([...weekendOf("SA")].sort()).toEqual([5, 6]);
  });
});
