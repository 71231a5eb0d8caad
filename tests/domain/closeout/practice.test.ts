import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { closeOut } from "../../../src/domain/closeout/gate.ts";
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { compilePlan } from "../../../src/domain/plan/compile.ts";
import { PACKS, PRACTICE_CONTEXT, PRACTICE_PLAN, passingAnswers } from "./practice-plan.ts";

const checked = checkPlan(PRACTICE_PLAN);
if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
const plan = compilePlan(checked.plan);

const close = (answers: Answer[]) => closeOut(plan, answers, PRACTICE_CONTEXT);

/** The passing answers with one of them saying something else. */
function with_(itemId: string, value: object, subject: string = ""): Answer[] {
  return passingAnswers().map((answer) =>
    answer.itemId === itemId && answer.subject === subject ? { ...answer, value } : answer,
  );
}

const pack = PACKS[1];
const wrench = (points: number[], number: number) => ({ points, setting: { number, unit: "N·m" } });
const all = (n: number) => Array.from({ length: n }, (_, index) => index + 1);

describe("an installation by the trade's limits (common practice, no source)", () => {
  test("is closed when every limit is met", () => {
    const result = close(passingAnswers());
    expect(result.blockers).toEqual([]);
    expect(result.open).toBe(true);
  });

  test("is not closed while nothing is answered, and every hold point says so", () => {
    const { open, blockers } = close([]);
    expect(open).toBe(false);
    expect(new Set(blockers.map((blocker) => blocker.code))).toEqual(new Set(["missing"]));
    expect(blockers).toHaveLength(passingAnswers().length);
  });

  test.each([
    ["pack_voltage_on", { number: 37.9, unit: "V" }, pack, "Read 37.9 V; needed at least 38 V."],
    ["pack_voltage_off", { number: 0.1, unit: "V" }, pack, "Read 0.1 V; needed exactly 0 V."],
    ["hole_depth", { number: 50, unit: "mm" }, "", "Read 50 mm; needed more than 50 mm."],
    ["holes_above", { count: 3 }, "", "Counted 3; needed exactly 4."],
    ["holes_below", { count: 15 }, "", "Counted 15; needed exactly 14."],
    [
      "bracket_anchors",
      wrench(all(4), 4.7),
      "",
      "4 of 4 tightened at 4.7 N·m; needed 5 N·m ± 4 %.",
    ],
    ["shelf_bolts", wrench(all(7), 6), "", "7 of 8 fasteners tightened; not tightened: 8."],
    ["shelf_bolts", wrench(all(8), 6.3), "", "8 of 8 tightened at 6.3 N·m; needed 6 N·m ± 4 %."],
    ["bracket_screws", wrench(all(2), 4.7), "", "2 of 2 tightened at 4.7 N·m; needed 5 N·m ± 4 %."],
    ["earth_screw", wrench([1], 3.8), "", "1 of 1 tightened at 3.8 N·m; needed 4 N·m ± 4 %."],
    [
      "power_terminals",
      wrench(all(2), 5.7),
      pack,
      "2 of 2 tightened at 5.7 N·m; needed 6 N·m ± 4 %.",
    ],
    [
      "cover_screws",
      wrench(all(6), 2.6),
      pack,
      "6 of 6 tightened at 2.6 N·m; needed 2.75 N·m ± 4 %.",
    ],
    ["wall_gap", { number: 8.9, unit: "mm" }, pack, "Read 8.9 mm; needed at least 9 mm."],
    ["cable_gap", { number: 24, unit: "mm" }, pack, "Read 24 mm; needed at least 25 mm."],
    [
      "button_hold",
      { number: 4.1, unit: "s" },
      pack,
      "Read 4.1 s; needed at least 3 s and at most 4 s.",
    ],
    ["breaker_off", { done: false }, pack, "Marked as not done."],
    ["serial", { text: "KH00001" }, pack, "Read KH00001; the job has KH00002."],
  ])("stays open when %s is %j", (itemId, value, subject, sentence) => {
    const { open, blockers } = close(with_(itemId, value, subject));
    expect(open).toBe(false);
    const blocker = blockers.find((entry) => entry.itemId === itemId);
    expect(blocker?.sentence).toBe(sentence);
    expect(blocker?.subject).toBe(subject);
    expect(blocker?.toClear).not.toBe("");
  });

  test("stays open when the breaker was switched on before it was off", () => {
    const answers = passingAnswers().map((answer) =>
      answer.itemId === "breaker_on" ? { ...answer, takenAt: "2026-11-25T08:00:00+00:00" } : answer,
    );
    const codes = close(answers).blockers.map(({ itemId, code }) => `${itemId} ${code}`);
    expect(codes).toContain("breaker_on out-of-sequence");
  });

  test("stays open when the voltage was read with an instrument out of calibration", () => {
    const instruments = PRACTICE_CONTEXT.instruments.map((entry) => ({
      ...entry,
      calibrations: [{ on: "2025-11-24", due: "2026-11-24", passed: true }],
    }));
    const { blockers } = closeOut(plan, passingAnswers(), { ...PRACTICE_CONTEXT, instruments });
    const blocker = blockers.find((entry) => entry.itemId === "hole_depth");
    expect(blocker?.sentence).toContain(
      "Read 50.1 mm; needed more than 50 mm. " +
        "D-01 was out of calibration: due 2026-11-24, read on 2026-11-25.",
    );
  });
});
