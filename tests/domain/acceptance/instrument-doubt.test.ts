// What was read with an instrument that turns out wrong is looked at again, back to when it was
// last known to be right: ISO 9001:2015 7.1.5.2, ISO 10012:2003 8.3.3, ISO/IEC 17025:2017 7.10, all
// from memory.
import { describe, expect, test } from "vitest";
import {
  doubtOn,
  doubtSpans,
  doubtWords,
} from "../../../src/domain/acceptance/instrument-doubt.ts";
import type { InstrumentEventFacts, InstrumentFacts } from "../../../src/domain/plan/context.ts";

type Calibrations = InstrumentFacts["calibrations"];
const passed = (on: string) => ({ on, due: "2030-01-01", passed: true });
const failed = (on: string) => ({ on, due: "2030-01-01", passed: false });
const event = (kind: InstrumentEventFacts["kind"], at: string) => ({ kind, at });

function cause(calibrations: Calibrations, events: InstrumentEventFacts[], takenAt: string) {
  return doubtOn(doubtSpans({ calibrations, events }), takenAt)?.cause;
}

describe("a failed calibration casts doubt back to the last that passed", () => {
  const history = [passed("2025-06-01"), passed("2026-01-10"), failed("2026-06-10")];
  test.each([
    ["2026-01-09T23:59:59+00:00", undefined],
    ["2026-01-10T00:00:00+00:00", "calibration-failed"],
    ["2026-06-10T15:00:00+01:00", "calibration-failed"],
    ["2026-07-01T09:00:00+01:00", "calibration-failed"],
  ])("read at %s: %s", (takenAt, expected) => {
    expect(cause(history, [], takenAt)).toBe(expected);
  });

  test.each([
    ["passed a week later", passed("2026-06-17"), "2026-06-16T12:00:00+01:00", true],
    ["passed a week later", passed("2026-06-17"), "2026-06-17T12:00:00+01:00", false],
    ["passed as left on its day", passed("2026-06-10"), "2026-06-10T12:00:00+01:00", true],
    ["passed as left on its day", passed("2026-06-10"), "2026-06-11T00:00:00+01:00", false],
  ])("and ends when it %s: %s read at %s", (_what, next, takenAt, isDoubted) => {
    expect(cause([...history, next], [], takenAt)).toBe(
      isDoubted ? "calibration-failed" : undefined,
    );
  });

  test("without one that passed it reaches back to the first reading", () => {
    expect(cause([failed("2026-06-10")], [], "2019-01-01T09:00:00Z")).toBe("calibration-failed");
  });

  test("a reading is on the day that is written at its place", () => {
    expect(cause(history, [], "2026-01-10T00:30:00+13:00")).toBe("calibration-failed");
    expect(cause(history, [], "2026-01-09T20:00:00-08:00")).toBeUndefined();
  });

  test("calibrations that passed cast none", () => {
    expect(doubtSpans({ calibrations: [passed("2025-06-01"), passed("2026-01-10")] })).toEqual([]);
  });
});

describe("an overload or a drop casts doubt from its moment", () => {
  const overload = event("overload", "2026-03-05T10:30:00Z");
  const history = [passed("2026-01-10")];
  test.each([
    ["2026-03-05T10:29:59Z", undefined],
    ["2026-03-05T10:30:00Z", "overload"],
    ["2026-05-01T09:00:00+01:00", "overload"],
  ])("read at %s: %s", (takenAt, expected) => {
    expect(cause(history, [overload], takenAt)).toBe(expected);
  });

  const recheck = event("recheck-passed", "2026-03-06T08:00:00Z");
  test.each([
    ["a passed recheck", history, [overload, recheck], "2026-03-06T07:59:59Z", true],
    ["a passed recheck", history, [overload, recheck], "2026-03-06T08:00:00Z", false],
    ["a calibration", [...history, passed("2026-03-05")], [overload], "2026-03-06T09:00:00Z", true],
    ["a calibration", [...history, passed("2026-03-07")], [overload], "2026-03-06T09:00:00Z", true],
    [
      "a calibration",
      [...history, passed("2026-03-07")],
      [overload],
      "2026-03-07T09:00:00Z",
      false,
    ],
  ])("until %s: %j %j read at %s", (_what, calibrations, events, takenAt, isDoubted) => {
    expect(cause(calibrations, events, takenAt)).toBe(isDoubted ? "overload" : undefined);
  });
});

describe("a failed recheck found it out of tolerance: doubt reaches back likewise", () => {
  const events = [event("recheck-failed", "2026-03-05T10:30:00Z")];
  test.each([
    [[passed("2026-01-10")], "2026-01-09T12:00:00Z", undefined],
    [[passed("2026-01-10")], "2026-01-10T12:00:00Z", "recheck-failed"],
    [[passed("2026-03-05")], "2026-03-05T08:00:00Z", "recheck-failed"],
    [[passed("2026-01-10"), passed("2026-03-06")], "2026-03-06T08:00:00Z", undefined],
  ])("calibrated %j, read at %s: %s", (calibrations, takenAt, expected) => {
    expect(cause(calibrations, events, takenAt)).toBe(expected);
  });
});

test("a doubt is told in words", () => {
  const words = (kind: "recheck-failed" | "overload" | "dropped") =>
    doubtWords({ cause: kind, found: "2026-03-05T10:30:00Z" });
  expect(doubtWords({ cause: "calibration-failed", found: "2026-06-10" })).toBe(
    "instrument later found out of tolerance (2026-06-10)",
  );
  expect(words("recheck-failed")).toBe(
    "instrument later found out of tolerance (2026-03-05 at 10:30)",
  );
  expect(words("overload")).toContain("later found overloaded (2026-03-05 at 10:30)");
  expect(words("dropped")).toContain("later found dropped (2026-03-05 at 10:30)");
});
