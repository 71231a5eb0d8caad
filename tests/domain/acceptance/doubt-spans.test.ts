// Exactly which readings an instrument's history casts doubt on: ISO 9001:2015 7.1.5.2, ISO
// 10012:2003 8.3.3 and ISO/IEC 17025:2017 7.10, all from memory.
import { describe, expect, test } from "vitest";
import { doubtSpans, spanOfEvent } from "../../../src/domain/acceptance/instrument-doubt.ts";
import type { InstrumentEventFacts } from "../../../src/domain/plan/context.ts";

const passed = (on: string) => ({ on, due: "2030-01-01", passed: true });
const failed = (on: string) => ({ on, due: "2030-01-01", passed: false });
const event = (kind: InstrumentEventFacts["kind"], day: string) => ({
  kind,
  at: `2026-${day}T10:00:00Z`,
});

describe("a failed calibration", () => {
  test.each([
    ["without any other", [failed("2026-06-10")], {}],
    [
      "between two that passed, in whatever order they are listed",
      [passed("2026-08-01"), passed("2026-07-01"), failed("2026-06-10"), passed("2026-01-10")],
      { fromDay: "2026-01-10", beforeDay: "2026-07-01" },
    ],
    [
      "after two that passed, in whatever order they are listed",
      [passed("2026-02-10"), passed("2026-01-10"), failed("2026-06-10")],
      { fromDay: "2026-02-10" },
    ],
    [
      "that passed as left on its day, and a month before",
      [passed("2026-05-10"), failed("2026-06-10"), passed("2026-06-10")],
      { fromDay: "2026-05-10", beforeDay: "2026-06-11" },
    ],
  ])("%s", (_what, calibrations, bounds) => {
    expect(doubtSpans({ calibrations })).toStrictEqual([
      { cause: "calibration-failed", found: "2026-06-10", ...bounds },
    ]);
  });
});

describe("what happened in between", () => {
  const spans = (...events: InstrumentEventFacts[]) => doubtSpans({ calibrations: [], events });

  test("ends with the recheck that passed after it, not with one before", () => {
    const events = [
      event("recheck-passed", "03-01"),
      event("overload", "03-05"),
      event("dropped", "03-06"),
      event("recheck-passed", "03-07"),
    ];
    const beforeAt = "2026-03-07T10:00:00Z";
    expect(spans(...events)).toStrictEqual([
      { cause: "overload", found: events[1]!.at, fromAt: events[1]!.at, beforeAt },
      { cause: "dropped", found: events[2]!.at, fromAt: events[2]!.at, beforeAt },
    ]);
  });

  test("stays in doubt where no recheck passed after it", () => {
    const events = [event("recheck-passed", "03-01"), event("overload", "03-05")];
    expect(spans(...events)).toStrictEqual([
      { cause: "overload", found: events[1]!.at, fromAt: events[1]!.at },
    ]);
  });

  test("is no doubt where a recheck passed", () => {
    expect(spans(event("recheck-passed", "03-01"))).toStrictEqual([]);
  });

  test("reaches back from a failed recheck to a calibration of its very day", () => {
    const calibrations = [passed("2026-01-10"), passed("2026-03-05"), passed("2026-03-08")];
    const events = [event("recheck-failed", "03-05")];
    expect(doubtSpans({ calibrations, events })).toStrictEqual([
      {
        ...{ cause: "recheck-failed", found: events[0]!.at },
        ...{ fromDay: "2026-03-05", beforeDay: "2026-03-08" },
      },
    ]);
  });

  test("is none where nothing happened, or not so many things", () => {
    expect(spanOfEvent({ calibrations: [] }, 0)).toBeUndefined();
    expect(
      spanOfEvent({ calibrations: [], events: [event("dropped", "03-05")] }, 1),
    ).toBeUndefined();
  });
});
