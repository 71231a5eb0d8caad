// How the cycles of a torque tool are counted: every fastener of a tightening is one, since the
// last passed calibration (ISO 6789-1:2017 5.3, from memory).
import { describe, expect, test } from "vitest";
import {
  cyclesBefore,
  cyclesOf,
  stateByCycles,
  withOwnUses,
} from "../../../src/domain/acceptance/torque-cycles.ts";
import type { InstrumentFacts } from "../../../src/domain/plan/context.ts";
import { contextOf, METER } from "./judged.ts";
import { codes, TOOL, tighten, tightened, use } from "./tightened.ts";

test.each<[unknown, number]>([
  [tightened(3), 3],
  [{ points: [] }, 0],
  [{ points: "123" }, 0],
  [{ done: true }, 0],
  [undefined, 0],
  [null, 0],
  ["points", 0],
  [5, 0],
])("the value %j is of %d cycles", (value, cycles) => {
  expect(cyclesOf(value)).toBe(cycles);
});

describe("the cycles before a moment", () => {
  const noon = "2026-11-25T12:00:00Z";
  const cycles = (
    tool: Partial<InstrumentFacts>,
    takenAt = noon,
    timeZone = "Europe/London",
  ): number => cyclesBefore({ ...TOOL, ...tool }, { takenAt, order: 1 }, timeZone);

  test("are none where it was not used", () => {
    expect(cycles({})).toBe(0);
    expect(codes([tighten(1)])).toEqual(["passed"]);
  });

  test("are all that ever were where it never passed a calibration", () => {
    expect(cycles({ calibrations: [], uses: [use("2001-01-01", 7)] })).toBe(7);
  });

  const passed = (on: string) => ({ on, due: "2027-12-31", passed: true });
  test.each([
    ["on the day itself", [passed("2026-11-25")], "2026-11-24", 0],
    ["the day after", [passed("2026-11-26")], "2026-11-24", 7],
    ["twice, told last first", [passed("2026-11-01"), passed("2026-02-02")], "2026-10-31", 0],
  ])("since it was calibrated %s", (_what, calibrations, day, expected) => {
    expect(cycles({ calibrations, uses: [use(day, 7)] })).toBe(expected);
  });

  // A use is told by the day written at its place; the reading has a day as written and one at the
  // site, and what lies on the later of the two counts.
  test.each([
    ["2026-11-25T23:30:00Z", "Europe/Berlin", "2026-11-26", 7],
    ["2026-11-25T23:30:00Z", "Europe/Berlin", "2026-11-27", 0],
    ["2026-11-26T00:30:00+02:00", "Europe/London", "2026-11-26", 7],
    ["2026-11-26T00:30:00+02:00", "Europe/London", "2026-11-27", 0],
    ["2026-11-25T12:00:00Z", "Europe/London", "2026-11-25", 7],
    ["2026-11-25T12:00:00Z", "Europe/London", "2026-11-26", 0],
  ])("up to its day: %s in %s, used on %s: %d", (takenAt, timeZone, day, expected) => {
    expect(cycles({ uses: [use(day, 7)] }, takenAt, timeZone)).toBe(expected);
  });
});

test("a tool that is due by its day alone is fit after any number of cycles", () => {
  const { intervalCycles: _limit, ...byDay } = TOOL;
  const moment = { takenAt: "2026-11-25T12:00:00Z", order: 1 };
  expect(stateByCycles(byDay, moment, 1_000_000, "Europe/London")).toEqual({ fit: true });
});

test("the job's own tightenings are told by tool, day and order in which they are known", () => {
  const context = contextOf({ instruments: [METER, { ...TOOL, uses: [use("2026-05-01", 4)] }] });
  const answers = [tighten(1, 5), tighten(2, 3, { instrumentId: "meter" })];
  const { instruments } = withOwnUses(context, answers);
  expect(instruments).toEqual([
    METER,
    { ...TOOL, uses: [use("2026-05-01", 4), use("2026-11-25", 5, 2)] },
  ]);
});
