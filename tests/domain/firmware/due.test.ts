import { describe, expect, test } from "vitest";
import { firmwareDeadline } from "../../../src/domain/firmware/deadline.ts";
import { type DueInput, dueState } from "../../../src/domain/firmware/due.ts";

const UNIT: DueInput = {
  level: "2.3.1",
  scheme: "semver",
  targetLevel: "2.4.0",
  state: "installed",
  deadline: "2026-03-14",
  today: "2026-03-01",
};

describe("due state (product rule: due = installed and below the target)", () => {
  test.each([
    ["2.3.99", "due"],
    ["2.4.0-rc.1", "due"],
    ["2.4.0", "up-to-date"],
    ["2.4.0+build.5", "up-to-date"],
    ["2.4.1", "up-to-date"],
    ["10.0.0", "up-to-date"],
  ])("level %s against 2.4.0 is %s (order: SemVer 2.0.0 clause 11)", (level, state) => {
    expect(dueState({ ...UNIT, level }).state).toBe(state);
  });

  test.each([
    ["2026-03-12", { state: "due", daysLeft: 2 }, "2 days left"],
    ["2026-03-13", { state: "due", daysLeft: 1 }, "1 day left"],
    ["2026-03-14", { state: "due", daysLeft: 0 }, "today is the last day"],
    ["2026-03-15", { state: "overdue", daysOver: 1 }, "1 day past the deadline of 2026-03-14"],
    ["2026-03-16", { state: "overdue", daysOver: 2 }, "2 days past the deadline of 2026-03-14"],
    ["2027-03-14", { state: "overdue", daysOver: 365 }, "365 days past"],
  ])("on %s with the deadline on 14 March the answer is %o", (today, expected, words) => {
    const due = dueState({ ...UNIT, today });
    expect(due).toMatchObject(expected);
    expect(due.sentence).toContain(words);
    expect(due.sentence).toContain("Level 2.3.1 is below the required 2.4.0");
  });

  test("days count through 29 February of a leap year (Gregorian calendar)", () => {
    const due = dueState({ ...UNIT, today: "2028-02-28", deadline: "2028-03-01" });
    expect(due).toMatchObject({ daysLeft: 2 });
  });

  test.each(["received", "swapped", "removed", ""])("a unit in state %j is not due", (state) => {
    expect(dueState({ ...UNIT, state }).state).toBe("not-installed");
  });

  test.each([null, ""])("a level of %j is unknown, not up to date", (level) => {
    const due = dueState({ ...UNIT, level });
    expect(due.state).toBe("unknown-level");
    expect(due.sentence).toContain("2.4.0 is required");
  });

  test.each([
    [{ level: "v2.9" }, '"v2.9" is no SemVer level'],
    [{ targetLevel: "newest" }, '"newest" is no SemVer level'],
  ])("with %o the levels are called not orderable, whatever the day", (change, words) => {
    const due = dueState({ ...UNIT, ...change, today: "2030-01-01" });
    expect(due.state).toBe("not-orderable");
    expect(due.sentence).toContain(words);
  });

  test("a deadline that is no date is a bug and throws", () => {
    expect(() => dueState({ ...UNIT, deadline: "2026-02-30" })).toThrow(RangeError);
    expect(() => dueState({ ...UNIT, today: "14.3.2026" })).toThrow(RangeError);
  });
});

describe("deadline (days by severity: common practice, no source)", () => {
  test.each([
    ["safety", "2026-03-01", "2026-03-08"],
    ["important", "2026-03-01", "2026-03-31"],
    ["routine", "2026-03-01", "2026-05-30"],
    ["safety", "2028-02-26", "2028-03-04"],
    ["safety", "2026-02-26", "2026-03-05"],
    ["safety", "2026-12-28", "2027-01-04"],
  ] as const)("a %s release from %s is due by %s", (severity, from, deadline) => {
    expect(firmwareDeadline({ severity, from })).toEqual({ ok: true, deadline });
  });

  test("a firm's own days replace the starting values", () => {
    const days = { safety: 0, important: 14, routine: 60 };
    expect(firmwareDeadline({ severity: "safety", from: "2026-03-01", days })).toEqual({
      ok: true,
      deadline: "2026-03-01",
    });
  });

  test.each([
    [3650, true],
    [3651, false],
    [0, true],
    [-1, false],
    [1.5, false],
    [Number.NaN, false],
  ])("%d days are accepted: %s", (count, ok) => {
    const days = { safety: count, important: 1, routine: 1 };
    expect(firmwareDeadline({ severity: "safety", from: "2026-03-01", days }).ok).toBe(ok);
  });

  test.each(["2026-02-29", "2026-13-01", "2026-3-1", "20260301", "+002026-03-01", ""])(
    "%j is no date to count from",
    (from) => {
      expect(firmwareDeadline({ severity: "routine", from })).toMatchObject({ ok: false });
    },
  );

  test("a deadline past the year 9999 is refused", () => {
    expect(firmwareDeadline({ severity: "safety", from: "9999-12-24" }).ok).toBe(true);
    expect(firmwareDeadline({ severity: "safety", from: "9999-12-25" }).ok).toBe(false);
  });
});
