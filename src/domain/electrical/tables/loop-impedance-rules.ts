// How a measured earth-loop impedance is held against the breaker: the trip multiple of
// the curve, and the margin each rule book takes for conductors measured cold.
import type { Citation, ReferenceTable } from "./reference-table.ts";

export type BreakerCurve = "B" | "C" | "D";

export const BREAKER_CURVES: ReferenceTable<{
  readonly curve: BreakerCurve;
  /** Current that trips the breaker at once, as a multiple of its rating (upper limit). */
  readonly multiple: number;
}> = {
  id: "breaker-curves",
  family: "IEC",
  clause: "IEC 60898-1 instantaneous tripping (upper limit)",
  edition: "IEC 60898-1, as used by BS 7671:2018 Table 41.3",
  found: "seen in a secondary page",
  rows: [
    { curve: "B", multiple: 5 },
    { curve: "C", multiple: 10 },
    { curve: "D", multiple: 20 },
  ],
};

export type LoopRule = "tabulated" | "eighty-percent" | "two-thirds";

export interface LoopRuleRow extends Citation {
  readonly rule: LoopRule;
  readonly factor: number;
  /** Voltage factor for a low supply; 1 where the rule takes none. */
  readonly cMin: number;
  readonly meaning: string;
}

export const LOOP_RULES: ReferenceTable<LoopRuleRow> = {
  id: "loop-impedance-rules",
  family: "BS",
  clause: "Rules for comparing a measured earth-loop impedance",
  edition: "BS 7671:2018 and IEC 60364-6:2016 side by side",
  found: "memory",
  rows: [
    {
      rule: "tabulated",
      factor: 1,
      cMin: 0.95,
      meaning: "limit at operating temperature",
      clause: "BS 7671 Table 41.3",
      edition: "BS 7671:2018",
      found: "seen in a secondary page",
    },
    {
      rule: "eighty-percent",
      factor: 0.8,
      cMin: 0.95,
      meaning: "limit for a reading taken with the conductors cold",
      clause: "BS 7671 Appendix 3 (80 % rule)",
      edition: "BS 7671:2018",
      found: "seen in a secondary page",
      caveat:
        "published tables of rounded values differ in the last digit; the unrounded value is used.",
    },
    {
      rule: "two-thirds",
      factor: 2 / 3,
      cMin: 1,
      meaning: "limit for a reading taken with the conductors cold",
      clause: "IEC 60364-6 Annex D (two-thirds rule)",
      edition: "IEC 60364-6:2016",
      found: "memory",
      caveat: "the annex number depends on the edition.",
    },
  ],
};
