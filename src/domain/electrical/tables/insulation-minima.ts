// Insulation resistance: test voltage and least value, for circuits (IEC 60364-6
// Table 6.1, BS 7671 Table 64) and for PV arrays (IEC 62446-1, 6.7).
import type { Citation, ReferenceTable } from "./reference-table.ts";

export type InsulationCircuit = "selv-pelv" | "ordinary";

export interface InsulationRow {
  readonly circuit: InsulationCircuit;
  readonly aboveV: number;
  readonly upToV: number;
  readonly testV: number;
  readonly minMohm: number;
}

const CIRCUIT_ROWS: readonly InsulationRow[] = [
  { circuit: "selv-pelv", aboveV: 0, upToV: 120, testV: 250, minMohm: 0.5 },
  { circuit: "ordinary", aboveV: 0, upToV: 500, testV: 500, minMohm: 1 },
  { circuit: "ordinary", aboveV: 500, upToV: 1500, testV: 1000, minMohm: 1 },
];

export const INSULATION_IEC: ReferenceTable<InsulationRow> = {
  id: "insulation-minima-iec",
  family: "IEC",
  clause: "IEC 60364-6 Table 6.1 (Table 6A in the 2006 edition)",
  edition: "IEC 60364-6:2016",
  found: "seen in a secondary page",
  rows: CIRCUIT_ROWS,
};

export const INSULATION_BS: ReferenceTable<InsulationRow> = {
  ...INSULATION_IEC,
  id: "insulation-minima-bs",
  family: "BS",
  clause: "BS 7671 Table 64",
  edition: "BS 7671:2018",
};

/** Upper limits of extra-low voltage; a circuit above them cannot be SELV or PELV. */
export const EXTRA_LOW_VOLTAGE: Citation & { readonly acV: number; readonly dcV: number } = {
  clause: "IEC 60364-4-41 414.1.1",
  edition: "IEC 60364-4-41:2005",
  found: "memory",
  acV: 50,
  dcV: 120,
};

export const SURGE_PROTECTION_TEST: Citation & { readonly testV: number; readonly upToV: number } =
  {
    clause: "IEC 60364-6 6.4.3.3",
    edition: "IEC 60364-6:2016",
    found: "memory",
    testV: 250,
    upToV: 500,
  };

export interface PvInsulationRow {
  /** System voltage, 1.25 times the open-circuit voltage at standard test conditions. */
  readonly upToV: number;
  /** False when the band ends just below `upToV`. */
  readonly including: boolean;
  readonly testV: number;
  readonly minMohm: number;
}

export const PV_INSULATION: ReferenceTable<PvInsulationRow> & {
  readonly voltageFactor: number;
  readonly maxArrayKwp: number;
} = {
  id: "pv-array-insulation",
  family: "IEC",
  clause: "IEC 62446-1 6.7",
  edition: "IEC 62446-1:2016+A1:2018",
  found: "memory",
  caveat: "the row above 1000 V and the basis of the system voltage are unsure.",
  voltageFactor: 1.25,
  maxArrayKwp: 10,
  rows: [
    { upToV: 120, including: false, testV: 250, minMohm: 0.5 },
    { upToV: 500, including: true, testV: 500, minMohm: 1 },
    { upToV: 1000, including: true, testV: 1000, minMohm: 1 },
    { upToV: 1500, including: true, testV: 1500, minMohm: 1 },
  ],
};
