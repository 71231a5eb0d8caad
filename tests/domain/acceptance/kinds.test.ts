// Each kind of item, answered well and answered ill. Figures are common practice, no source.
import { describe, expect, test } from "vitest";
import type { Draft } from "../plan/small-plan.ts";
import { contextOf, METER, verdictOn } from "./judged.ts";

type Row = [value: unknown, expected: string];
const codeOf = (
  item: Draft,
  value: unknown,
  more: Parameters<typeof verdictOn>[2] = {},
): string => {
  const { code, sentence } = verdictOn(item, value, more);
  return `${code}: ${sentence}`;
};

test.each<Row>([
  [{ done: true }, "passed: Confirmed."],
  [{ done: false }, "failed: Marked as not done."],
])("confirm %j", (value, expected) => {
  expect(codeOf({ kind: "confirm" }, value)).toBe(expected);
});

describe("tighten", () => {
  const item = {
    kind: "tighten",
    points: 8,
    unit: "N·m",
    limit: { nominal: 6, tolerance: { percent: 4 } },
  };
  const all = [1, 2, 3, 4, 5, 6, 7, 8];
  const set = (points: number[], number: unknown, unit = "N·m") => ({
    points,
    setting: { number, unit },
  });

  test.each<Row>([
    [set(all, 6), "passed: 8 of 8 tightened at 6 N·m; needed 6 N·m ± 4 %."],
    [set([...all].reverse(), 6), "passed: 8 of 8 tightened at 6 N·m; needed 6 N·m ± 4 %."],
    [set(all, 6.24), "passed: 8 of 8 tightened at 6.24 N·m; needed 6 N·m ± 4 %."],
    [set(all, 6.25), "failed: 8 of 8 tightened at 6.25 N·m; needed 6 N·m ± 4 %."],
    [
      set(all, "53", "lbf·in"),
      "passed: 8 of 8 tightened at 53 lbf·in (5.9882 N·m); needed 6 N·m ± 4 %.",
    ],
    [set(all.slice(0, 7), 6), "fasteners-open: 7 of 8 fasteners tightened; not tightened: 8."],
    [
      set([2, 4], 6),
      "fasteners-open: 2 of 8 fasteners tightened; not tightened: 1, 3, 5, 6, 7, 8.",
    ],
    [
      set([], 6),
      "fasteners-open: 0 of 8 fasteners tightened; not tightened: 1, 2, 3, 4, 5, 6 and more.",
    ],
  ])("%j", (value, expected) => {
    const told = codeOf(item, value, { answer: { instrumentId: "wrench" } });
    expect(told).toBe(expected);
  });

  test("asks for a torque wrench though the plan does not say so", () => {
    expect(codeOf(item, set(all, 6))).toBe(
      "instrument-missing: 8 of 8 tightened at 6 N·m; needed 6 N·m ± 4 %. " +
        "No instrument is named; this is read with a torque-wrench.",
    );
    expect(codeOf(item, set(all, 6), { answer: { instrumentId: "meter" } })).toContain(
      "instrument-class: ",
    );
  });
});

test.each<[Draft, number, string]>([
  [{ count: 4 }, 4, "passed: Counted 4; needed exactly 4."],
  [{ count: 4 }, 3, "failed: Counted 3; needed exactly 4."],
  [{ count: 4 }, 5, "failed: Counted 5; needed exactly 4."],
  [{ min: 2, below: 5 }, 2, "passed: Counted 2; needed at least 2 and less than 5."],
  [{ min: 2, below: 5 }, 5, "failed: Counted 5; needed at least 2 and less than 5."],
  [{ min: { cel: "count.batteryPack" } }, 2, "passed: Counted 2; needed at least 2."],
  [{ min: { cel: "count.batteryPack" } }, 1, "failed: Counted 1; needed at least 2."],
  [
    { expression: "value == count.batteryPack * 4" },
    8,
    "passed: Counted 8; needed value == count.batteryPack * 4.",
  ],
  [
    { expression: "value == count.batteryPack * 4", words: "four for every pack" },
    7,
    "failed: Counted 7; needed four for every pack.",
  ],
])("count %j: %d", (limit, count, expected) => {
  expect(codeOf({ kind: "count", limit }, { count })).toBe(expected);
});

test.each<[Draft, string, string]>([
  [{}, "B", "passed: Chosen: B."],
  [{ limit: { oneOf: ["A", "B"] } }, "B", "passed: Chosen: B; needed A or B."],
  [{ limit: { oneOf: ["A", "B"] } }, "C", "failed: Chosen: C; needed A or B."],
])("choose %j: %s", (more, choice, expected) => {
  expect(codeOf({ kind: "choose", options: ["A", "B", "C"], ...more }, { choice })).toBe(expected);
});

test.each<[Draft, string, string]>([
  [{ oneOf: ["2.4.1", "2.4.2"] }, "2.4.2", "passed: Level read: 2.4.2; needed 2.4.1 or 2.4.2."],
  [{ oneOf: ["2.4.1"] }, "2.4.0", "failed: Level read: 2.4.0; needed 2.4.1."],
  [
    { expression: 'value.startsWith("2.")' },
    "2.9",
    'passed: Level read: 2.9; needed value.startsWith("2.").',
  ],
  [
    { expression: 'value.startsWith("2.")' },
    "1.9",
    'failed: Level read: 1.9; needed value.startsWith("2.").',
  ],
  [
    { expression: 'value.startsWith("2.")', words: "a level of the second line" },
    "1.9",
    "failed: Level read: 1.9; needed a level of the second line.",
  ],
])("identify a firmware level %j: %s", (limit, text, expected) => {
  expect(codeOf({ kind: "identify", what: "firmware-level", limit }, { text })).toBe(expected);
});

describe("set", () => {
  const item = {
    kind: "set",
    repeat: { per: "unit" },
    positions: [
      { switch: "rotary", position: { cel: "unit.position - 1" } },
      { switch: "dip 1", position: { cel: 'unit.position == count.batteryPack ? "on" : "off"' } },
      { switch: "mode", position: "run" },
    ],
  };
  const of = (positions: Record<string, string>) =>
    codeOf(item, { positions }, { answer: { subject: "pack-2" } });

  test.each<[Record<string, string>, string]>([
    [{ rotary: "1", "dip 1": "on", mode: "run" }, "passed: Every switch stands as needed."],
    [{ rotary: " 1 ", "dip 1": "on", mode: "run" }, "passed: Every switch stands as needed."],
    [{ rotary: "2", "dip 1": "on", mode: "run" }, "failed: rotary is 2, needed 1."],
    [{ rotary: "1", "dip 1": "off", mode: "run" }, "failed: dip 1 is off, needed on."],
    [
      { "dip 1": "on", mode: "stop" },
      "failed: rotary is not given, needed 1; mode is stop, needed run.",
    ],
  ])("%j", (positions, expected) => {
    expect(of(positions)).toBe(expected);
  });
});

test.each<Row>([
  [{ name: "Wren Alder" }, "passed: Signed."],
  [{ name: "Wren Alder", signature: "a".repeat(64) }, "passed: Signed."],
])("sign %j", (value, expected) => {
  expect(codeOf({ kind: "sign", whose: "customer" }, value)).toBe(expected);
});

describe("an answer that was kept and cannot be read", () => {
  test("is not met, and says why", () => {
    const item = { kind: "measure", unit: "V", limit: { min: 1 } };
    expect(codeOf(item, { number: 2, unit: "A" })).toMatch(/^unreadable: A does not measure this/);
  });
});

test("what clears a failure is the plan's word, or else the usual one", () => {
  const item = { kind: "measure", unit: "V", limit: { min: 38 } };
  const low = { number: 36.9, unit: "V" };
  expect(verdictOn({ ...item, toClear: "Charge the pack." }, low).toClear).toBe("Charge the pack.");
  expect(verdictOn(item, low).toClear).toBe("Put right what causes it and measure again.");
  expect(verdictOn(item, { number: 39, unit: "V" }).toClear).toBeUndefined();
});

test("the reading, its unit and what was needed stay with the verdict", () => {
  const item = { kind: "measure", unit: "V", limit: { min: 38 } };
  const context = contextOf({ instruments: [METER] });
  const verdict = verdictOn(
    item,
    { number: 39, unit: "V" },
    { context, answer: { instrumentId: "meter" } },
  );
  expect(verdict).toMatchObject({
    reading: { number: 39, unit: "V", uncertainty: 0.395 },
    needed: "at least 38 V",
    attempts: 1,
    answerId: "answer-item--1",
  });
});
