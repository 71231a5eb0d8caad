// Both sides of every end of every kind of limit. The figures are common practice, no source.
import { describe, expect, test } from "vitest";
import type { Draft } from "../plan/small-plan.ts";
import { verdictOn } from "./judged.ts";

const measure = (limit: Draft, unit = "V"): Draft => ({ kind: "measure", unit, limit });
const shortly = ({ outcome, sentence }: { outcome: string; sentence: string }): string =>
  `${outcome}: ${sentence}`;
const read = (limit: Draft, number: unknown, unit = "V"): string =>
  shortly(verdictOn(measure(limit, unit), { number, unit }));

describe("a reading against its limit", () => {
  test.each<[Draft, number, string]>([
    [{ min: 38 }, 38, "pass: Read 38 V; needed at least 38 V."],
    [{ min: 38 }, 37.9, "fail: Read 37.9 V; needed at least 38 V."],
    [{ above: 50 }, 50.1, "pass: Read 50.1 V; needed more than 50 V."],
    [{ above: 50 }, 50, "fail: Read 50 V; needed more than 50 V."],
    [{ max: 0.1 }, 0.1, "pass: Read 0.1 V; needed at most 0.1 V."],
    [{ max: 0.1 }, 0.1001, "fail: Read 0.1001 V; needed at most 0.1 V."],
    [{ below: 5 }, 4.999, "pass: Read 4.999 V; needed less than 5 V."],
    [{ below: 5 }, 5, "fail: Read 5 V; needed less than 5 V."],
    [{ min: 3, max: 4 }, 3, "pass: Read 3 V; needed at least 3 V and at most 4 V."],
    [{ min: 3, max: 4 }, 4, "pass: Read 4 V; needed at least 3 V and at most 4 V."],
    [{ min: 3, max: 4 }, 2.99, "fail: Read 2.99 V; needed at least 3 V and at most 4 V."],
    [{ min: 3, max: 4 }, 4.01, "fail: Read 4.01 V; needed at least 3 V and at most 4 V."],
    [{ above: 3, below: 4 }, 3, "fail: Read 3 V; needed more than 3 V and less than 4 V."],
    [{ above: 3, below: 4 }, 3.5, "pass: Read 3.5 V; needed more than 3 V and less than 4 V."],
    [{ min: 0, max: 0 }, 0, "pass: Read 0 V; needed exactly 0 V."],
    [{ min: 0, max: 0 }, 0.1, "fail: Read 0.1 V; needed exactly 0 V."],
    [{ min: 0, max: 0 }, -0, "pass: Read 0 V; needed exactly 0 V."],
    [{ min: -5 }, -5, "pass: Read −5 V; needed at least −5 V."],
    [{ min: -5 }, -5.1, "fail: Read −5.1 V; needed at least −5 V."],
    [{ nominal: 6, tolerance: { absolute: 0.5 } }, 5.5, "pass: Read 5.5 V; needed 6 V ± 0.5 V."],
    [{ nominal: 6, tolerance: { absolute: 0.5 } }, 6.51, "fail: Read 6.51 V; needed 6 V ± 0.5 V."],
    [{ nominal: 6, tolerance: { percent: 4 } }, 5.76, "pass: Read 5.76 V; needed 6 V ± 4 %."],
    [{ nominal: 6, tolerance: { percent: 4 } }, 5.759, "fail: Read 5.759 V; needed 6 V ± 4 %."],
    [{ nominal: 6, tolerance: { percent: 4 } }, 6.24, "pass: Read 6.24 V; needed 6 V ± 4 %."],
    [{ nominal: 6, tolerance: { percent: 4 } }, 6.241, "fail: Read 6.241 V; needed 6 V ± 4 %."],
    [{ nominal: -6, tolerance: { percent: 4 } }, -6.24, "pass: Read −6.24 V; needed −6 V ± 4 %."],
    [{ nominal: 5, tolerance: { absolute: 0 } }, 5, "pass: Read 5 V; needed exactly 5 V."],
    [{ nominal: 5, tolerance: { absolute: 0 } }, 5.1, "fail: Read 5.1 V; needed exactly 5 V."],
    [
      { expression: "value > 3 && value != 5" },
      4,
      "pass: Read 4 V; needed value > 3 && value != 5.",
    ],
    [
      { expression: "value > 3 && value != 5" },
      5,
      "fail: Read 5 V; needed value > 3 && value != 5.",
    ],
  ])("%j and %d", (limit, number, expected) => {
    expect(read(limit, number)).toBe(expected);
  });

  test.each<[Draft, number, string]>([
    [{ nominal: 0.1, tolerance: { absolute: 0.2 } }, 0.3, "pass"],
    [{ nominal: 2.75, tolerance: { percent: 6 } }, 2.585, "pass"],
    [{ nominal: 2.75, tolerance: { percent: 6 } }, 2.915, "pass"],
    [{ max: { cel: "0.1 + 0.2" } }, 0.3, "pass"],
    [{ below: { cel: "0.1 + 0.2" } }, 0.3, "fail"],
    [{ min: { cel: "51.2 * 0.9" } }, 46.08, "pass"],
    [{ above: { cel: "51.2 * 0.9" } }, 46.08, "fail"],
    [{ max: { cel: "230.1 - 230" } }, 0.1, "pass"],
  ])(
    "a worked-out end is where arithmetic on paper puts it: %j and %d: %s",
    (limit, number, expected) => {
      expect(verdictOn(measure(limit), { number, unit: "V" }).outcome).toBe(expected);
    },
  );
});

describe("the unit in which a reading is typed does not change its verdict", () => {
  test.each<[Draft, string, unknown, string, string]>([
    [{ max: 2.75 }, "V", 2750, "mV", "pass: Read 2750 mV (2.75 V); needed at most 2.75 V."],
    [{ below: 2.75 }, "V", 2750, "mV", "fail: Read 2750 mV (2.75 V); needed less than 2.75 V."],
    [{ max: 0.35 }, "Ω", "350", "mΩ", "pass: Read 350 mΩ (0.35 Ω); needed at most 0.35 Ω."],
    [{ max: 0.35 }, "Ω", "350.1", "mΩ", "fail: Read 350.1 mΩ (0.3501 Ω); needed at most 0.35 Ω."],
    [{ min: 1 }, "MΩ", "1000", "kΩ", "pass: Read 1000 kΩ (1 MΩ); needed at least 1 MΩ."],
    [{ above: 50.8 }, "mm", "2", "in", "fail: Read 2 in (50.8 mm); needed more than 50.8 mm."],
    [{ min: 50.8 }, "mm", "2", "in", "pass: Read 2 in (50.8 mm); needed at least 50.8 mm."],
    [{ max: 25 }, "°C", "77", "°F", "pass: Read 77 °F (25 °C); needed at most 25 °C."],
    [{ max: 25 }, "°C", "77.1", "°F", "fail: Read 77.1 °F (25.0556 °C); needed at most 25 °C."],
    [
      { max: 1.3558179483314 },
      "N·m",
      "1",
      "lbf·ft",
      "fail: Read 1 lbf·ft (1.35582 N·m); needed at most 1.3558179 N·m.",
    ],
  ])("%j %s, typed as %s %s", (limit, itemUnit, number, unit, expected) => {
    expect(shortly(verdictOn(measure(limit, itemUnit), { number, unit }))).toBe(expected);
  });
});

describe("a reading beyond the instrument's range", () => {
  test.each<[Draft, string, string, string]>([
    [{ min: 1 }, ">999", "passed", "Read >999 MΩ; needed at least 1 MΩ."],
    [{ min: 999 }, ">999", "passed", "Read >999 MΩ; needed at least 999 MΩ."],
    [{ above: 999 }, ">999", "passed", "Read >999 MΩ; needed more than 999 MΩ."],
    [
      { min: 1000 },
      ">999",
      "over-range",
      "Read >999 MΩ, which does not show that it is at least 1000 MΩ.",
    ],
    [
      { max: 2000 },
      ">999",
      "over-range",
      "Read >999 MΩ, which does not show that it is at most 2000 MΩ.",
    ],
    [
      { min: 1, max: 2000 },
      ">999",
      "over-range",
      "Read >999 MΩ, which does not show that it is at least 1 MΩ and at most 2000 MΩ.",
    ],
    [{ max: 0.5 }, "<0.01", "passed", "Read <0.01 MΩ; needed at most 0.5 MΩ."],
    [{ below: 0.01 }, "<0.01", "passed", "Read <0.01 MΩ; needed less than 0.01 MΩ."],
    [
      { max: 0.009 },
      "<0.01",
      "under-range",
      "Read <0.01 MΩ, which does not show that it is at most 0.009 MΩ.",
    ],
    [
      { min: 0 },
      "<0.01",
      "under-range",
      "Read <0.01 MΩ, which does not show that it is at least 0 MΩ.",
    ],
    [
      { expression: "value > 1" },
      ">999",
      "over-range",
      "Read >999 MΩ, which does not show that it is value > 1.",
    ],
  ])("%j and %s", (limit, number, code, sentence) => {
    expect(verdictOn(measure(limit, "MΩ"), { number, unit: "MΩ" })).toMatchObject({
      code,
      sentence,
    });
  });
});
