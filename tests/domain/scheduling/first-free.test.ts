import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { driveMin } from "../../../src/domain/scheduling/diary-facts.ts";
import { firstFree, lookAtDay } from "../../../src/domain/scheduling/first-free.ts";
import {
  anyDiary,
  crew,
  FAR,
  HOME,
  instrument,
  ms,
  person,
  quartersAround,
  visit,
  wish,
} from "./diaries.ts";
import { fits } from "./fits-by-rule.ts";

describe("the first free place", () => {
  test("agrees with trying every quarter of an hour", () => {
    fc.assert(
      fc.property(anyDiary, ({ wish: asked, crew: drawn, day }) => {
        const quarters = quartersAround(day);
        const free = quarters.filter((startMs) => fits(asked, drawn, day, startMs));
        const { suggestions, obstacles } = lookAtDay(asked, drawn, day);
        const spans = suggestions.map(({ startMs, latestStartMs }) => [startMs, latestStartMs]);
        const found = quarters.filter((at) =>
          spans.some(([from = 0, to = 0]) => from <= at && at <= to),
        );
        expect(found).toEqual(free);
        expect(
          suggestions.every(({ startMs, endMs }) => endMs - startMs === asked.minutes * 60_000),
        );
        expect(obstacles.length > 0).toBe(free.length === 0);
      }),
      { numRuns: 300 },
    );
  });

  test("drives within its hours come from the base and go home to it", () => {
    expect(driveMin(HOME, FAR)).toBe(28);
    const [only] = lookAtDay(wish({ base: FAR }), crew(), "2026-11-25").suggestions;
    expect(only).toMatchObject({
      startMs: ms("2026-11-25T08:30:00Z"),
      latestStartMs: ms("2026-11-25T14:30:00Z"),
      ...{ driveBeforeMin: 28, driveAfterMin: 28, beforeVisitId: null, afterVisitId: null },
    });
  });

  test("the drives from the visit before and to the visit after are left free", () => {
    const visits = [
      visit("1", "2026-11-25T08:00:00Z", "2026-11-25T10:00:00Z", FAR),
      visit("2", "2026-11-25T13:00:00Z", "2026-11-25T17:00:00Z", FAR),
    ];
    const { suggestions } = lookAtDay(wish({ base: FAR }), crew({ visits }), "2026-11-25");
    expect(suggestions).toEqual([
      {
        ...{ crewId: "north", day: "2026-11-25" },
        startMs: ms("2026-11-25T10:30:00Z"),
        endMs: ms("2026-11-25T12:30:00Z"),
        latestStartMs: ms("2026-11-25T10:30:00Z"),
        ...{ driveBeforeMin: 28, driveAfterMin: 28, beforeVisitId: "1", afterVisitId: "2" },
      },
    ]);
    const longer = lookAtDay(wish({ minutes: 135 }), crew({ visits }), "2026-11-25");
    expect(longer.suggestions).toEqual([]);
    expect(longer.obstacles).toMatchObject([{ visitId: "1" }, { visitId: "2" }]);
  });

  // Europe/London: 2026-03-29 01:00 UTC and 2026-10-25 01:00 UTC (IANA time zone database, as the
  // rules of Directive 2000/84/EC); America/New_York: second Sunday of March, 2026-03-08. RFC 9557
  // 1.2: local time and offset go together by the zone's rules, so eight o'clock moves in UTC.
  test.each([
    ["Europe/London", "2026-03-28", "2026-03-28T08:00:00Z"],
    ["Europe/London", "2026-03-29", "2026-03-29T07:00:00Z"],
    ["Europe/London", "2026-10-24", "2026-10-24T07:00:00Z"],
    ["Europe/London", "2026-10-25", "2026-10-25T08:00:00Z"],
    ["America/New_York", "2026-03-07", "2026-03-07T13:00:00Z"],
    ["America/New_York", "2026-03-08", "2026-03-08T12:00:00Z"],
    ["Asia/Kathmandu", "2026-03-08", "2026-03-08T02:15:00Z"],
  ])("eight o'clock in %s on %s is %s", (timeZone, day, start) => {
    const every = [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({ weekday, from: "08:00", to: "17:00" }));
    const own = crew({ people: [person("a", { week: every })] });
    const [first] = lookAtDay(wish({ timeZone }), own, day).suggestions;
    expect(first?.startMs).toBe(ms(start));
  });

  // On 2026-03-29 London's clocks go from 01:00 to 02:00, on 2026-10-25 from 02:00 back to 01:00.
  test.each([
    ["2026-03-28", 360, true],
    ["2026-03-28", 375, false],
    ["2026-03-29", 300, true],
    ["2026-03-29", 315, false],
    ["2026-10-25", 420, true],
    ["2026-10-25", 435, false],
  ])("between midnight and six on %s work of %d minutes fits: %s", (day, minutes, isFree) => {
    const nights = [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({
      weekday,
      from: "00:00",
      to: "06:00",
    }));
    const own = crew({ people: [person("a", { week: nights })] });
    expect(lookAtDay(wish({ minutes }), own, day).suggestions.length > 0).toBe(isFree);
  });
});

describe("several crews and days", () => {
  const south = crew({ id: "south", name: "South crew" });

  test("the earliest start comes first, of equal ones that with less driving", () => {
    const taken = crew({
      visits: [visit("1", "2026-11-25T08:00:00Z", "2026-11-25T09:00:00Z", FAR)],
    });
    const far = {
      ...south,
      visits: [visit("2", "2026-11-25T07:00:00Z", "2026-11-25T08:00:00Z", FAR)],
    };
    const days = ["2026-11-25", "2026-11-26"];
    const { suggestions } = firstFree(wish(), [taken, far, { ...south, id: "west" }], days, 4);
    expect(suggestions.map(({ crewId, startMs }) => [crewId, startMs])).toEqual([
      ["west", ms("2026-11-25T08:00:00Z")],
      ["south", ms("2026-11-25T08:30:00Z")],
      ["north", ms("2026-11-25T09:30:00Z")],
      ["north", ms("2026-11-26T08:00:00Z")],
    ]);
  });

  test("a qualification that ends rules the days after out, and is said", () => {
    const kind = { kindId: "hv", kindName: "DC work", askedOf: "everyone", warnDays: 30 } as const;
    const held = [
      { personId: "a", kindId: "hv", validFrom: "2026-01-01", validTo: "2026-11-26" },
      { personId: "b", kindId: "hv", validFrom: "2026-01-01", validTo: null },
    ];
    const asked = wish({ requirements: [kind], held });
    const days = ["2026-11-26", "2026-11-27"];
    const { suggestions, refused } = firstFree(asked, [crew()], days, 5);
    expect(suggestions.map(({ day }) => day)).toEqual(["2026-11-26"]);
    expect(refused.map(({ day, obstacles }) => [day, obstacles])).toEqual([
      [
        "2026-11-27",
        [
          {
            ...{ what: "not-qualified", day: "2026-11-27", kindId: "hv", kindName: "DC work" },
            ...{ askedOf: "everyone", personId: "a", personName: "Person a" },
            ...{ endedOn: "2026-11-26", startsOn: null },
          },
        ],
      ],
    ]);
  });

  test.each([
    ["2027-01-31", null, undefined],
    ["2027-01-30", null, { what: "out-of-calibration", endedOn: "2027-01-30" }],
    [null, null, { what: "out-of-calibration", endedOn: null }],
    ["2027-12-31", "2027-02-01", undefined],
    ["2027-12-31", "2027-01-31", { what: "retired", endedOn: "2027-01-31" }],
  ])("an instrument in date to %s, retired on %s", (inDateTo, retiredOn, obstacle) => {
    const own = instrument({ inDateTo, retiredOn });
    const week = [{ weekday: 7, from: "08:00", to: "17:00" }];
    const sunday = crew({ people: [person("a", { week })] });
    const look = lookAtDay(wish({ instruments: [own] }), sunday, "2027-01-31");
    expect(look.suggestions.length).toBe(obstacle ? 0 : 1);
    expect(look.obstacles).toMatchObject(obstacle ? [{ instrumentId: "loop", ...obstacle }] : []);
  });

  test.each([
    ["a holiday", "2026-12-25", { daysOff: new Set(["2026-12-25"]) }, "holiday"],
    ["a Sunday", "2026-11-29", {}, "day-off"],
    ["work longer than the day", "2026-11-25", { minutes: 555 }, "too-short"],
    ["a day that is over", "2026-11-25", { notBeforeMs: ms("2026-11-25T15:15:00Z") }, "too-short"],
  ])("%s has no place, and it is said why", (_, day, fields, what) => {
    expect(lookAtDay(wish(fields), crew(), day)).toMatchObject({
      suggestions: [],
      obstacles: [{ what }],
    });
  });

  test("whoever is away all day is named", () => {
    const [startMs, endMs] = [ms("2026-11-25T00:00:00Z"), ms("2026-11-26T00:00:00Z")];
    const away = [{ absenceId: "x", startMs, endMs }];
    const own = crew({ people: [person("a"), person("b", { away })] });
    const { obstacles } = lookAtDay(wish(), own, "2026-11-25");
    const told = { what: "away", personId: "b", name: "Person b", absenceId: "x", startMs, endMs };
    expect(obstacles).toEqual([told]);
  });
});
