// A torque tool is due after 12 months or 5,000 cycles, whichever comes first: ISO 6789-1:2017 5.3,
// from memory. Which side the boundary lies on is our choice: the 5,000th cycle is the last one in.
import { describe, expect, test } from "vitest";
import { verdictForAnswer } from "../../../src/domain/acceptance/judge.ts";
import { calibrationDue } from "../../../src/domain/dates/calibration-dates.ts";
import { planOf } from "../plan/small-plan.ts";
import { contextOf } from "./judged.ts";
import { codes, DAY, PLAN, TOOL, tighten, use } from "./tightened.ts";

describe("the cycle that reaches the limit is the last one in", () => {
  test.each([
    [4991, "passed"],
    [4992, "passed"],
    [4993, "instrument-out-of-cycles"],
    [5000, "instrument-out-of-cycles"],
    [9000, "instrument-out-of-cycles"],
  ])("%d cycles before eight fasteners: %s", (cycles, code) => {
    expect(codes([tighten(1)], { uses: [use("2026-05-01", cycles)] })).toEqual([code]);
  });

  test.each([
    [4999, "passed"],
    [5000, "instrument-out-of-cycles"],
  ])("%d cycles before one fastener more", (cycles, code) => {
    const plan = planOf([
      { id: "bolts", kind: "tighten", points: 1, unit: "N·m", limit: { min: 5, max: 7 } },
    ]);
    const answer = tighten(1, 1);
    const tool = { ...TOOL, uses: [use("2026-05-01", cycles)] };
    const context = contextOf({ instruments: [tool] });
    expect(verdictForAnswer(plan, answer, [answer], context)?.code).toBe(code);
  });

  test("it says the limit, what the answer makes, and the way out", () => {
    const tool = { ...TOOL, uses: [use("2026-05-01", 4993)] };
    const answer = tighten(1);
    const context = contextOf({ instruments: [tool] });
    expect(verdictForAnswer(PLAN, answer, [answer], context)).toMatchObject({
      outcome: "stale-instrument",
      clears: false,
      sentence:
        "8 of 8 tightened at 6 N·m; needed at least 5 N·m and at most 7 N·m. " +
        "W-01 was due for calibration after 5000 cycles; this makes 5001.",
      toClear: "Tighten again with a tool in calibration, or enter the calibration that it had.",
    });
  });

  test("a tool without a limit has no last cycle", () => {
    const { intervalCycles: _limit, ...tool } = { ...TOOL, uses: [use("2026-05-01", 9000)] };
    const answer = tighten(1);
    const context = contextOf({ instruments: [tool] });
    expect(verdictForAnswer(PLAN, answer, [answer], context)?.code).toBe("passed");
  });
});

describe("whichever comes first, the day or the cycles", () => {
  const on = "2024-02-29";
  // 12 months from a leap day end on the month's last day: Regulation 1182/71 Art. 3(2)(c), from
  // memory.
  const due = calibrationDue(on, 12);
  test.each([
    ["2025-02-28T12:00:00Z", 4992, "passed"],
    ["2025-02-28T12:00:00Z", 4993, "instrument-out-of-cycles"],
    ["2025-02-28T23:59:59Z", 0, "passed"],
    ["2025-03-01T00:00:00Z", 0, "instrument-out-of-calibration"],
    ["2025-03-01T00:00:00Z", 4993, "instrument-out-of-calibration"],
  ])("calibrated on 29 February 2024, %s with %d cycles: %s", (takenAt, cycles, code) => {
    const tool = { calibrations: [{ on, due, passed: true }], uses: [use(on, cycles)] };
    expect(codes([tighten(1, 8, { takenAt })], tool)).toEqual([code]);
  });
});

describe("cycles count from the last passed calibration", () => {
  const passed = (on: string) => ({ on, due: calibrationDue(on, 12), passed: true });
  const failed = (on: string) => ({ on, due: calibrationDue(on, 12), passed: false });
  test.each([
    ["on the day before it they do not", [passed("2026-06-01")], "2026-05-31", "passed"],
    ["on its day they do", [passed("2026-06-01")], "2026-06-01", "instrument-out-of-cycles"],
    [
      "a failed one in between starts nothing anew",
      [passed("2026-01-05"), failed("2026-06-01")],
      "2026-05-31",
      "instrument-out-of-calibration",
    ],
    [
      "one passed as left does",
      [passed("2026-01-05"), failed("2026-06-01"), passed("2026-06-01")],
      "2026-05-31",
      "passed",
    ],
    [
      "one after the reading does not",
      [passed("2026-01-05"), passed("2026-11-26")],
      "2026-05-31",
      "instrument-out-of-cycles",
    ],
  ])("%s", (_what, calibrations, day, code) => {
    expect(codes([tighten(1)], { calibrations, uses: [use(day, 5000)] })).toEqual([code]);
  });
});

describe("the job's own work counts as it is done", () => {
  const uses = [use("2026-05-01", 4980)];

  test("every attempt and every item, the first to pass the limit is the first stale one", () => {
    const answers = [
      tighten(1, 8),
      tighten(2, 8, {}, "screws"),
      tighten(3, 5),
      tighten(4, 8, {}, "screws"),
    ];
    expect(codes(answers, { uses })).toEqual([
      "passed",
      "passed",
      "fasteners-open",
      "instrument-out-of-cycles",
    ]);
  });

  test("by the order in which answers are known, in whatever order they are handed in", () => {
    const answers = [tighten(1), tighten(2), tighten(3)];
    const context = contextOf({ instruments: [{ ...TOOL, uses }] });
    const last = answers.at(-1)!;
    const given = [...answers].reverse();
    expect(verdictForAnswer(PLAN, last, given, context)?.code).toBe("instrument-out-of-cycles");
    expect(verdictForAnswer(PLAN, answers[1]!, given, context)?.code).toBe("passed");
  });

  test("work with another tool is none of its cycles", () => {
    const other = { ...TOOL, id: "other", reference: "W-02", uses: [] };
    const answers = [tighten(1), tighten(2, 8, { instrumentId: "other" }), tighten(3)];
    const context = contextOf({ instruments: [{ ...TOOL, uses: [use(DAY, 4984)] }, other] });
    expect(verdictForAnswer(PLAN, answers[2]!, answers, context)?.code).toBe("passed");
  });

  test("what the facts hold up to a receipt order is not counted twice", () => {
    const answers = [tighten(1), tighten(2)];
    const held = [use(DAY, 8, 2), use("2026-05-01", 4984)];
    expect(codes(answers, { uses: held, usesThrough: 1 })).toEqual(["passed", "passed"]);
    expect(codes(answers, { uses: held, usesThrough: 0 })[1]).toBe("instrument-out-of-cycles");
  });
});

describe("a verdict keeps the count that it was judged by", () => {
  test.each([
    ["known before it, of an earlier day", use("2026-11-24", 5000, 1), "instrument-out-of-cycles"],
    ["known before it, of its own day", use(DAY, 5000, 1), "instrument-out-of-cycles"],
    ["known before it, of the day after", use("2026-11-26", 5000, 1), "passed"],
    ["that came in later", use("2026-11-24", 5000, 2), "passed"],
  ])("work of another job %s", (_what, other, code) => {
    expect(codes([tighten(1)], { uses: [other] })).toEqual([code]);
  });
});
