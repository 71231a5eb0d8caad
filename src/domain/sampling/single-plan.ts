// Requirement: an auditor looks at as many records of a lot as an acceptance sampling plan asks
// for, and accepts or rejects by a number fixed before. Source: ISO 2859-1:1999, table 1 (general
// inspection level II) and table 2-A (single sampling, normal inspection), from memory; the
// chances that these plans give are computed in acceptance-chance.ts.

export interface SinglePlan {
  readonly letter: string;
  readonly sampleSize: number;
  /** Accepted with so many nonconforming at most; rejected with one more. */
  readonly accept: number;
}

/** Percent nonconforming. */
export const QUALITY_LIMITS = [0.4, 0.65, 1, 1.5, 2.5, 4, 6.5] as const;
export type QualityLimit = (typeof QUALITY_LIMITS)[number];

const LETTERS: readonly (readonly [letter: string, lotMost: number, sampleSize: number])[] = [
  ["A", 8, 2],
  ["B", 15, 3],
  ["C", 25, 5],
  ["D", 50, 8],
  ["E", 90, 13],
  ["F", 150, 20],
  ["G", 280, 32],
  ["H", 500, 50],
  ["J", 1200, 80],
  ["K", 3200, 125],
  ["L", 10_000, 200],
];
export const LOT_MOST = 10_000;

/** The letter at which a limit's column has its plan with acceptance number 0. */
const ZERO_AT: Readonly<Record<QualityLimit, string>> = {
  ...{ 6.5: "A", 4: "B", 2.5: "C", 1.5: "D", 1: "E" },
  ...{ 0.65: "F", 0.4: "G" },
};
/** Down a column from there; "up" and "down" send to the next plan in that direction. */
const COLUMN = [0, "up", "down", 1, 2, 3, 5, 7, 10, 14, 21] as const;

/** The plan for a lot of 1 to LOT_MOST; a sample as large as the lot means that all are seen. */
export function singlePlan(lotSize: number, limit: QualityLimit): SinglePlan {
  const row = LETTERS.findIndex(([, lotMost]) => lotSize <= lotMost);
  if (row < 0 || lotSize < 1) throw new RangeError(`no plan for a lot of ${lotSize}`);
  const zero = LETTERS.findIndex(([letter]) => letter === ZERO_AT[limit]);
  const step = Math.min(Math.max(row - zero, 0), COLUMN.length - 1);
  const arrow = COLUMN[step];
  const settled = arrow === "up" ? step - 1 : arrow === "down" ? step + 1 : step;
  const [letter, , size] = LETTERS[zero + settled] as (typeof LETTERS)[0];
  const sampleSize = Math.min(size, lotSize);
  return { letter, sampleSize, accept: COLUMN[settled] as number };
}
