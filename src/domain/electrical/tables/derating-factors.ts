// Reductions of current-carrying capacity for warm air and for cables laid together:
// IEC 60364-5-52 Tables B.52.14 and B.52.17; NEC 310.15(B)(1) and 310.15(C)(1).
import type { CableInsulation } from "./ampacity-iec.ts";
import type { ReferenceTable } from "./reference-table.ts";

export interface AmbientRow {
  /** The factor holds up to and including this air temperature. */
  readonly upToC: number;
  readonly factor: number;
}

export interface AmbientTable extends ReferenceTable<AmbientRow> {
  /** Lowest temperature the table speaks for. */
  readonly fromC: number;
  /** Reference air temperature and conductor limit, from which the factors follow. */
  readonly referenceC: number;
  readonly conductorC: number;
}

function ambientRows(firstC: number, factors: readonly number[]): readonly AmbientRow[] {
  return factors.map((factor, index) => ({ upToC: firstC + 5 * index, factor }));
}

const B_52_14 = {
  family: "IEC",
  clause: "IEC 60364-5-52 Table B.52.14",
  edition: "IEC 60364-5-52:2009",
  found: "memory",
  fromC: 10,
  referenceC: 30,
} as const;

export const AMBIENT_IEC: Readonly<Record<CableInsulation, AmbientTable>> = {
  pvc: {
    ...B_52_14,
    id: "ambient-pvc",
    conductorC: 70,
    rows: ambientRows(10, [1.22, 1.17, 1.12, 1.06, 1, 0.94, 0.87, 0.79, 0.71, 0.61, 0.5]),
  },
  xlpe: {
    ...B_52_14,
    id: "ambient-xlpe",
    conductorC: 90,
    rows: ambientRows(
      10,
      [1.15, 1.12, 1.08, 1.04, 1, 0.96, 0.91, 0.87, 0.82, 0.76, 0.71, 0.65, 0.58, 0.5, 0.41],
    ),
  },
};

export const AMBIENT_NEC: AmbientTable = {
  id: "ambient-nec-75",
  family: "NEC",
  clause: "NEC Table 310.15(B)(1), 75 °C column",
  edition: "NEC 2020 numbering",
  found: "memory",
  caveat: "the factor for 36 °C to 40 °C was also seen quoted elsewhere.",
  fromC: -60,
  referenceC: 30,
  conductorC: 75,
  rows: ambientRows(10, [1.2, 1.15, 1.11, 1.05, 1, 0.94, 0.88, 0.82, 0.75, 0.67, 0.58, 0.47, 0.33]),
};

export interface GroupingRow {
  readonly upTo: number;
  readonly factor: number;
}

export const GROUPING_IEC: ReferenceTable<GroupingRow> = {
  id: "grouping-bunched",
  family: "IEC",
  clause: "IEC 60364-5-52 Table B.52.17, bunched",
  edition: "IEC 60364-5-52:2009",
  found: "memory",
  rows: [
    { upTo: 1, factor: 1 },
    { upTo: 2, factor: 0.8 },
    { upTo: 3, factor: 0.7 },
    { upTo: 4, factor: 0.65 },
    { upTo: 5, factor: 0.6 },
    { upTo: 6, factor: 0.57 },
    { upTo: 7, factor: 0.54 },
    { upTo: 8, factor: 0.52 },
    { upTo: 9, factor: 0.5 },
    { upTo: 12, factor: 0.45 },
    { upTo: 16, factor: 0.41 },
    { upTo: 20, factor: 0.38 },
  ],
};

export const GROUPING_NEC: ReferenceTable<GroupingRow> = {
  id: "grouping-nec",
  family: "NEC",
  clause: "NEC Table 310.15(C)(1)",
  edition: "NEC 2020 numbering",
  found: "memory",
  rows: [
    { upTo: 3, factor: 1 },
    { upTo: 6, factor: 0.8 },
    { upTo: 9, factor: 0.7 },
    { upTo: 20, factor: 0.5 },
    { upTo: 30, factor: 0.45 },
    { upTo: 40, factor: 0.4 },
    { upTo: 1000, factor: 0.35 },
  ],
};
