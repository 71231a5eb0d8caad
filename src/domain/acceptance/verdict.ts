// Requirement: every verdict says in one sentence what was read and what was needed, and what would
// clear it; pass and fail are not the only outcomes.
export const OUTCOMES = [
  "pass",
  "fail",
  "marginal",
  "missing",
  "stale-instrument",
  "out-of-sequence",
  "conceded",
  "not-applicable",
] as const;
export type Outcome = (typeof OUTCOMES)[number];

export interface Verdict {
  outcome: Outcome;
  /** Whether the item is met for this subject. */
  clears: boolean;
  /** The finer reason: "failed", "guard-band", "instrument-out-of-calibration". */
  code: string;
  /** "Read 36.9 V; needed at least 38 V." */
  sentence: string;
  toClear?: string;
  /** What was needed, with limits worked out: "at least 38 V". */
  needed?: string;
  /** The reading in the item's unit, and U where the instrument's accuracy is known. */
  reading?: { number: number; unit: string; uncertainty?: number };
  /** Probability that the true value lies outside the limit (JCGM 106, normal). */
  risk?: number;
  answerId?: string;
  concessionId?: string;
  /** How many answers there are to this item and subject. */
  attempts: number;
}

export type Finding = Omit<Verdict, "attempts">;

/** A finding that does not meet the item and says what would. */
export type OpenFinding = Finding & { toClear: string };

/** A finding that meets the item. */
export const passing = (sentence: string): Finding => ({
  outcome: "pass",
  clears: true,
  code: "passed",
  sentence,
});

/** A finding that does not meet the item; `code` is the finer reason. */
export const failing = (code: string, sentence: string, more: Partial<Finding> = {}): Finding => ({
  outcome: "fail",
  clears: false,
  code,
  sentence,
  ...more,
});

/** A finding that nothing can be accepted, because what would be cannot be worked out. */
export const notComputable = (read: string, problem: string, what = "The limit"): Finding =>
  failing("limit-not-computable", `${read} ${what} cannot be worked out: ${problem}.`.trim(), {
    toClear: "Supply what is missing, then answer again.",
  });

/** A finding that something is not there yet, and what would supply it. */
export const missing = (code: string, sentence: string, toClear: string): OpenFinding => ({
  outcome: "missing",
  clears: false,
  code,
  sentence,
  toClear,
});

/** A finding that the item is not asked for, so that it keeps nothing open. */
export const notApplicable = (): Finding => ({
  outcome: "not-applicable",
  clears: true,
  code: "not-applicable",
  sentence: "It does not apply to this job.",
});

/** Another reason in place of the one found, told after what was read and needed. */
export function laidOver({ sentence, reading, needed, risk }: Finding, over: Finding): Finding {
  const full: Finding = { ...over, sentence: `${sentence} ${over.sentence}` };
  if (reading) full.reading = reading;
  if (needed !== undefined) full.needed = needed;
  if (risk !== undefined) full.risk = risk;
  return full;
}
