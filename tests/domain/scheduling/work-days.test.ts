import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, test } from "vitest";
import { cautionsAt } from "../../../src/domain/scheduling/cautions.ts";
import { dayTravel } from "../../../src/domain/scheduling/day-travel.ts";
import {
  learntDuration,
  median,
  workedMinutes,
} from "../../../src/domain/scheduling/learnt-duration.ts";
import { dayHours } from "../../../src/domain/scheduling/work-week.ts";
import { crew, FAR, HOME, instrument, ms, person, visit, wish } from "./diaries.ts";

const { jStat } = jstat as unknown as { jStat: { median(numbers: readonly number[]): number } };

describe("how long a job takes", () => {
  const at = (from: string, to: string, activeMin = 0) => ({
    startMs: ms(`2026-11-25T${from}:00Z`),
    endMs: ms(`2026-11-25T${to}:00Z`),
    activeMs: activeMin * 60_000,
  });

  test.each([
    ["one after the other", [at("08:00", "09:00"), at("09:00", "10:30")], 150],
    ["side by side", [at("08:00", "09:00"), at("08:30", "10:30")], 150],
    ["with a pause between", [at("08:00", "09:00"), at("11:00", "11:30")], 90],
    ["ten hours of one stage", [at("08:00", "18:00", 30)], 600],
    ["longer, which lay overnight", [at("08:00", "18:01", 30)], 30],
    ["none", [], 0],
    ["a clock set back", [at("09:00", "08:00", 20)], 0],
  ])("stages %s", (_, stages, minutes) => {
    expect(workedMinutes(stages)).toBeCloseTo(minutes, 6);
  });

  test("stages of any kind take as long as the minutes in which one of them ran", () => {
    const stage = fc.tuple(fc.nat(500), fc.integer({ min: 1, max: 90 })).map(([start, length]) => ({
      startMs: start * 60_000,
      endMs: (start + length) * 60_000,
      activeMs: 0,
    }));
    fc.assert(
      fc.property(fc.array(stage, { maxLength: 8 }), (stages) => {
        const minutes = Array.from({ length: 600 }, (_, minute) => minute * 60_000 + 30_000);
        const worked = minutes.filter((moment) =>
          stages.some(({ startMs, endMs }) => startMs <= moment && moment < endMs),
        );
        expect(workedMinutes(stages)).toBeCloseTo(worked.length, 6);
      }),
    );
  });

  test("the median is that of jstat", () => {
    const numbers = fc.array(fc.integer({ min: 1, max: 2000 }), { minLength: 1, maxLength: 25 });
    fc.assert(
      fc.property(numbers, (list) => {
        expect(median(list)).toBe(jStat.median(list));
      }),
    );
  });

  test.each([
    ["three of its plan", [100, 121, 500], [900, 900, 900], 135, "plan", 3],
    ["two of its plan, three of its kind", [100, 121], [60, 61, 62], 75, "kind", 3],
    ["two of each", [100, 121], [60, 61], 150, "usual", 0],
    ["a plan clicked through", [1, 4.9, 100, 121], [60, 75, 75], 75, "kind", 3],
    ["minutes that are a quarter of an hour", [120, 120, 120], [], 120, "plan", 3],
    [
      "the newest twenty",
      [...Array<number>(20).fill(30), ...Array<number>(30).fill(600)],
      [],
      30,
      "plan",
      20,
    ],
  ])("of %s", (_, plan, kind, minutes, from, jobs) => {
    expect(learntDuration(plan, kind, "inspection")).toEqual({ minutes, from, jobs });
  });
});

describe("hours and drives of a day", () => {
  test("a crew works when all of its people do", () => {
    const early = [{ weekday: 3, from: "06:00", to: "14:00" }];
    const late = [{ weekday: 3, from: "12:30", to: "20:00" }];
    const night = [{ weekday: 3, from: "20:00", to: "23:00" }];
    const hours = (...weeks: (typeof early)[]) => dayHours("2026-11-25", "Europe/London", weeks);
    expect(hours(early, late)).toEqual({
      startMs: ms("2026-11-25T12:30:00Z"),
      endMs: ms("2026-11-25T14:00:00Z"),
    });
    expect(hours(late, night)).toBeUndefined();
    expect(hours(early, [])).toBeUndefined();
    expect(hours()).toBeUndefined();
    expect(dayHours("2026-11-26", "Europe/London", [early])).toBeUndefined();
  });

  test("each drive leads from the visit before, the first from the base", () => {
    const visits = [
      visit("2", "2026-11-25T10:27:00Z", "2026-11-25T11:00:00Z", FAR),
      visit("1", "2026-11-25T08:00:00Z", "2026-11-25T10:00:00Z", HOME),
      visit("3", "2026-11-25T11:00:00Z", "2026-11-25T12:00:00Z", FAR),
    ];
    expect(dayTravel(visits, FAR)).toEqual([
      { visitId: "1", fromVisitId: null, driveMin: 28, roomMin: null, isTight: false },
      { visitId: "2", fromVisitId: "1", driveMin: 28, roomMin: 27, isTight: true },
      { visitId: "3", fromVisitId: "2", driveMin: 0, roomMin: 0, isTight: false },
    ]);
    expect(dayTravel(visits, null).map(({ visitId }) => visitId)).toEqual(["2", "3"]);
  });

  const stretch = (from: string, to: string) => ({
    startMs: ms(`2026-11-25T${from}:00Z`),
    endMs: ms(`2026-11-25T${to}:00Z`),
  });
  const before = visit("1", "2026-11-25T08:00:00Z", "2026-11-25T10:00:00Z", FAR);

  test.each([
    ["within hours, the drive fits", "10:28", "17:00", []],
    ["the drive does not fit", "10:27", "17:00", ["tight-drive"]],
    ["past the hours", "10:28", "17:01", ["outside-hours"]],
    ["before the hours and both drives fit", "07:00", "07:32", ["outside-hours"]],
    [
      "before the hours and the drive on does not fit",
      "07:00",
      "07:33",
      ["outside-hours", "tight-drive"],
    ],
  ])("cautions: %s", (_, from, to, told) => {
    const own = crew({ visits: [before] });
    expect(cautionsAt(wish(), own, stretch(from, to)).map(({ what }) => what)).toEqual(told);
  });

  test("a holiday, a day off, calibration and what runs out are told", () => {
    const kind = { kindId: "dc", kindName: "DC work", askedOf: "someone", warnDays: 30 } as const;
    const held = [{ personId: "a", kindId: "dc", validFrom: "2026-01-01", validTo: "2026-12-20" }];
    const asked = wish({
      ...{ requirements: [kind], held, instruments: [instrument({ inDateTo: "2026-11-24" })] },
    });
    const told = cautionsAt(asked, crew(), stretch("09:00", "10:00"));
    expect(told).toMatchObject([
      { what: "qualification-ends", personName: "Person a", endsOn: "2026-12-20", daysLeft: 25 },
      { what: "out-of-calibration", reference: "I-1", endedOn: "2026-11-24" },
    ]);
    const holiday = { ...wish(), daysOff: new Set(["2026-11-25"]) };
    expect(cautionsAt(holiday, crew(), stretch("09:00", "10:00"))).toEqual([
      { what: "holiday", day: "2026-11-25" },
    ]);
    const off = crew({ people: [person("a", { week: [] })] });
    expect(cautionsAt(wish(), off, stretch("09:00", "10:00"))).toEqual([
      { what: "day-off", day: "2026-11-25" },
    ]);
  });
});
