// Decision rules of ILAC-G8:09/2019 (4.2.1 to 4.2.3) as verdicts show them.
import { describe, expect, test } from "vitest";
import type { InstrumentFacts } from "../../../src/domain/plan/context.ts";
import type { Draft } from "../plan/small-plan.ts";
import { METER, verdictOn } from "./judged.ts";

describe("a decision in a verdict", () => {
  const item = (limit: Draft, more: Draft = {}): Draft => ({
    kind: "measure",
    unit: "V",
    limit,
    ...more,
  });
  const meter = (accuracy: InstrumentFacts["accuracy"]): InstrumentFacts => ({
    ...METER,
    accuracy,
  });
  const read = (rule: string, number: unknown, limit: Draft = { min: 38 }) =>
    verdictOn(
      item(limit, { decisionRule: rule }),
      { number, unit: "V" },
      {
        answer: { instrumentId: "meter" },
        context: { instruments: [meter({ percentOfRange: 0.05 })] },
      },
    );

  test.each([
    ["guarded", 38.5, "pass", true, "passed", "Read 38.5 V; needed at least 38 V."],
    [
      "guarded",
      38.4,
      "marginal",
      false,
      "guard-band",
      "Read 38.4 V ± 0.5 V; too near the limit: needed at least 38 V.",
    ],
    ["guarded", 37.9, "fail", false, "failed", "Read 37.9 V; needed at least 38 V."],
    ["four-way", 38.5, "pass", true, "passed", "Read 38.5 V; needed at least 38 V."],
    [
      "four-way",
      38,
      "marginal",
      true,
      "conditional-pass",
      "Read 38 V ± 0.5 V; met, near the limit: needed at least 38 V.",
    ],
    [
      "four-way",
      37.5,
      "marginal",
      false,
      "conditional-fail",
      "Read 37.5 V ± 0.5 V; not met, near the limit: needed at least 38 V.",
    ],
    ["four-way", 37.4, "fail", false, "failed", "Read 37.4 V; needed at least 38 V."],
    ["simple", 38, "pass", true, "passed", "Read 38 V; needed at least 38 V."],
  ])("%s, %d V: %s", (rule, number, outcome, clears, code, sentence) => {
    expect(read(rule, number)).toMatchObject({ outcome, clears, code, sentence });
  });

  test.each([
    ["simple", ">38.1", "passed"],
    ["simple", ">37.9", "over-range"],
    ["guarded", ">38.5", "passed"],
    ["guarded", ">38.4", "guard-band"],
    ["four-way", ">38.4", "conditional-pass"],
    ["guarded", ">37.9", "over-range"],
    ["four-way", ">37.9", "over-range"],
  ])("%s, beyond the range at %s: %s", (rule, number, code) => {
    expect(read(rule, number).code).toBe(code);
  });

  test.each([
    ["simple", "<37.9", "passed"],
    ["simple", "<38.1", "under-range"],
    ["guarded", "<37.5", "passed"],
    ["guarded", "<37.6", "guard-band"],
    ["four-way", "<37.6", "conditional-pass"],
    ["guarded", "<38.1", "under-range"],
  ])("%s, below the range at %s: %s", (rule, number, code) => {
    expect(read(rule, number, { max: 38 }).code).toBe(code);
  });

  test.each([
    ["guarded", 38.5, "passed"],
    ["guarded", 38.4, "guard-band"],
    ["four-way", 38.4, "conditional-pass"],
    ["four-way", 37.6, "conditional-fail"],
    ["four-way", 37.4, "failed"],
  ])("%s, an expression is asked at both ends of U: %d is %s", (rule, number, code) => {
    expect(read(rule, number, { expression: "value >= 38" }).code).toBe(code);
  });

  test("the rule of the plan counts where the item has none", () => {
    const more = { answer: { instrumentId: "meter" }, plan: { decisionRule: "guarded" } };
    const verdict = verdictOn(item({ min: 38 }), { number: 38.1, unit: "V" }, more);
    expect(verdict.code).toBe("guard-band");
  });

  test("a torque is guarded by the tool's share of the setting (ISO 6789-1, from memory)", () => {
    const tighten = {
      kind: "tighten",
      points: 1,
      unit: "N·m",
      limit: { nominal: 6, tolerance: { percent: 6 } },
    };
    const at = (number: number) =>
      verdictOn(
        tighten,
        { points: [1], setting: { number, unit: "N·m" } },
        { answer: { instrumentId: "wrench" }, plan: { decisionRule: "guarded" } },
      ).code;
    // U is 4 % of the setting: 6.11 + 0.2444 = 6.3544 lies within 6.36, and 6.12 + 0.2448 beyond.
    expect(at(6.11)).toBe("passed");
    expect(at(6.12)).toBe("guard-band");
  });

  test("the risk is told with the verdict, and only where U is known", () => {
    expect(read("simple", 38).risk).toBeCloseTo(0.5, 12);
    expect(verdictOn(item({ min: 38 }), { number: 38, unit: "V" }).risk).toBeUndefined();
    expect(read("simple", ">38").risk).toBeUndefined();
  });

  test.each([
    [39, "uncertainty-unknown", "marginal"],
    [37, "failed", "fail"],
  ])("where the plan counts accuracy and it is not known, %d V is %s", (number, code, outcome) => {
    const more = {
      answer: { instrumentId: "meter" },
      context: { instruments: [meter(undefined)] },
      plan: { decisionRule: "guarded" },
    };
    const verdict = verdictOn(item({ min: 38 }), { number, unit: "V" }, more);
    expect(verdict).toMatchObject({ code, outcome, clears: false });
  });

  test("a reading that counts on an instrument out of calibration does not clear", () => {
    const stale = { ...METER, calibrations: [] };
    const more = {
      answer: { instrumentId: "meter" },
      context: { instruments: [stale] },
      plan: { decisionRule: "guarded" },
    };
    const verdict = verdictOn(item({ min: 38 }), { number: 60, unit: "V" }, more);
    expect(verdict.code).toBe("instrument-out-of-calibration");
  });
});
