import { expect, test } from "vitest";
import { daily } from "../../src/domain/scheduling/free-stretches.ts";
import { USUAL_WEEK, type WorkWeek } from "../../src/domain/scheduling/work-week.ts";
import {
  beginWindows,
  crewDays,
  minutesOn,
  momentAt,
  workingDays,
} from "../../src/features/rounds/crew-days.ts";

const hoursFrom = (clock: string) => ({
  ...{ within: daily("00:00", "23:59"), notBeforeMs: Date.parse(`2026-11-30T${clock}:00Z`) },
});
const CLOCK = { firstDay: "2026-11-30", timeZone: "Europe/London" };

test("working days leave out weekends and days off (Easter Monday 2026 is 6 April)", () => {
  const daysOff = new Set(["2026-04-03", "2026-04-06"]);
  const days = (weeks: WorkWeek[]) => workingDays("2026-04-02", 3, daysOff, weeks);
  expect(days([USUAL_WEEK])).toEqual(["2026-04-02", "2026-04-07", "2026-04-08"]);
  const saturday = [{ weekday: 6, from: "09:00", to: "13:00" }];
  expect(days([USUAL_WEEK, saturday])).toEqual(["2026-04-02", "2026-04-04", "2026-04-07"]);
  expect(days([])).toEqual([]);
});

test("minutes are of the firm's clock, also when the clocks change (IANA: 29 March)", () => {
  const clock = { firstDay: "2026-03-28", timeZone: "Europe/London" };
  const at = momentAt(clock, 1440 + 8 * 60);
  expect(at.toISOString()).toBe("2026-03-29T07:00:00.000Z");
  expect(minutesOn(clock, at.getTime())).toBe(1440 + 8 * 60);
});

const ms = (clock: string) => Date.parse(`2026-11-30T${clock}:00Z`);
const visit = (from: string, to: string, latitudeDeg: number) => ({
  ...{ visitId: from, jobReference: "J", startMs: ms(from), endMs: ms(to) },
  position: { latitudeDeg, longitudeDeg: 0 },
});
const person = { id: "p", name: "P", week: USUAL_WEEK };

test("a crew's day falls into the stretches between its visits, from one place to the next", () => {
  const visits = [visit("09:00", "11:02", 52), visit("15:00", "15:30", 53)];
  const away = [{ absenceId: "a", startMs: ms("16:40"), endMs: ms("18:00") }];
  const crew = { id: "c", name: "C", people: [{ ...person, away }], visits };
  const placeOf = (position: { latitudeDeg: number } | null) => position?.latitudeDeg ?? 0;
  const days = crewDays(crew, "2026-11-30", CLOCK, hoursFrom("00:00"), placeOf);
  expect(days).toMatchObject([
    { startsMin: 480, endsMin: 540, startPlace: 0, endPlace: 52 },
    { startsMin: 665, endsMin: 900, startPlace: 52, endPlace: 53 },
    { startsMin: 930, endsMin: 1000, startPlace: 53, endPlace: 0 },
  ]);
  expect(crewDays(crew, "2026-11-30", CLOCK, hoursFrom("14:10"), placeOf)).toMatchObject([
    { startsMin: 850, endsMin: 900, startPlace: 52 },
    { startsMin: 930 },
  ]);
});

test("a crew has no hours where one of its people does not work, or with nobody in it", () => {
  const friday = { ...person, id: "q", week: USUAL_WEEK.slice(4), away: [] };
  const of = (people: object[]) =>
    crewDays(
      { id: "c", name: "C", people: people as never, visits: [] },
      "2026-11-30",
      CLOCK,
      hoursFrom("00:00"),
      () => 0,
    );
  expect(of([{ ...person, away: [] }])).toHaveLength(1);
  expect(of([{ ...person, away: [] }, friday])).toEqual([]);
  expect(of([])).toEqual([]);
});

test("work at a site ends within the hours its customer has named, by the site's clocks", () => {
  const hours = [{ weekday: 1, from: "09:00", to: "12:00" }];
  const days = ["2026-11-30", "2026-12-01"];
  const windows = (work: number, zone: string) => beginWindows(hours, work, days, zone, CLOCK);
  expect(windows(40, "Europe/London")).toEqual([{ fromMin: 540, toMin: 680 }]);
  // An hour ahead of London in winter (IANA).
  expect(windows(40, "Europe/Madrid")).toEqual([{ fromMin: 480, toMin: 620 }]);
  expect(windows(180, "Europe/London")).toEqual([{ fromMin: 540, toMin: 540 }]);
  expect(windows(181, "Europe/London")).toEqual([{ fromMin: -1, toMin: -1 }]);
  expect(beginWindows([], 40, days, "Europe/London", CLOCK)).toBeUndefined();
});
