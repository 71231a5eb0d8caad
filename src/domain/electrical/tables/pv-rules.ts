// PV strings: translation to temperature and irradiance (IEC 60891), comparison of strings
// (IEC 62446-1), the cold voltage table and current factors of NEC 690.
import type { Citation, ReferenceTable } from "./reference-table.ts";

export const TRANSLATION: Citation & {
  readonly referenceC: number;
  readonly referenceWm2: number;
} = {
  clause: "IEC 60891 (linear translation)",
  edition: "IEC 60891, edition not recorded",
  found: "computed",
  referenceC: 25,
  referenceWm2: 1000,
};

export const STRING_COMPARISON: Citation & { readonly percent: number } = {
  clause: "IEC 62446-1 6.4, 6.5.2",
  edition: "IEC 62446-1:2016+A1:2018",
  found: "memory",
  caveat: "identical strings under stable sun; larger differences call for a closer look.",
  percent: 5,
};

export interface ColdFactorRow {
  /** The factor holds down to and including this temperature. */
  readonly downToC: number;
  readonly factor: number;
}

const COLD_FACTORS = [
  1.02, 1.04, 1.06, 1.08, 1.1, 1.12, 1.14, 1.16, 1.18, 1.2, 1.21, 1.23, 1.25,
] as const;

export const COLD_FACTOR_TABLE: ReferenceTable<ColdFactorRow> & { readonly fromC: number } = {
  id: "cold-voltage-factors",
  family: "NEC",
  clause: "NEC Table 690.7(A)",
  edition: "NEC, edition not recorded",
  found: "memory",
  caveat: "for crystalline silicon modules only.",
  fromC: 24,
  rows: COLD_FACTORS.map((factor, index) => ({ downToC: 20 - 5 * index, factor })),
};

export const COLD_BY_COEFFICIENT: Citation = {
  clause: "NEC 690.7(A)(1); IEC 60891 (linear translation)",
  edition: "NEC, edition not recorded",
  found: "computed",
};

export const PV_CURRENT: Citation & { readonly factor: number } = {
  clause: "NEC 690.8(A), 690.8(B)",
  edition: "NEC, edition not recorded",
  found: "computed",
  factor: 1.25,
};
