// Voltage drop: the limits of IEC 60364-5-52 Table G.52.1, the constants of its Annex G,
// the tabulated mV/A/m of BS 7671 and the constants of the NEC handbook method.
import type { Citation, ReferenceTable } from "./reference-table.ts";

export type LoadUse = "lighting" | "other";
export type Supply = "public" | "private";

export interface DropLimitRow {
  readonly supply: Supply;
  readonly use: LoadUse;
  readonly percent: number;
}

export const DROP_LIMITS: ReferenceTable<DropLimitRow> & {
  /** Beyond `freeLengthM` the limit grows by `percentPerM`, at most by `growthMaxPercent`. */
  readonly freeLengthM: number;
  readonly percentPerM: number;
  readonly growthMaxPercent: number;
} = {
  id: "voltage-drop-limits",
  family: "IEC",
  clause: "IEC 60364-5-52 Table G.52.1",
  edition: "IEC 60364-5-52:2009",
  found: "seen in a secondary page",
  caveat: "the limit runs from the origin of the installation, not from the last board.",
  freeLengthM: 100,
  percentPerM: 0.005,
  growthMaxPercent: 0.5,
  rows: [
    { supply: "public", use: "lighting", percent: 3 },
    { supply: "public", use: "other", percent: 5 },
    { supply: "private", use: "lighting", percent: 6 },
    { supply: "private", use: "other", percent: 8 },
  ],
};

export const ANNEX_G = {
  clause: "IEC 60364-5-52 Annex G",
  edition: "IEC 60364-5-52:2009",
  found: "memory",
  resistivity: { copper: 0.0225, aluminium: 0.036 },
  /** Reactance per metre, used when nothing better is known. */
  reactanceOhmPerM: 0.000_08,
  pathFactor: { "single-phase": 2, "three-phase": 1 },
} as const satisfies Citation & Record<string, unknown>;

export const MILLIVOLTS_BS: ReferenceTable<{
  readonly areaMm2: number;
  readonly millivoltPerAmpMetre: number;
}> = {
  id: "millivolt-per-amp-metre",
  family: "BS",
  clause: "BS 7671 Table 4D1B, two cables, single-phase AC",
  edition: "BS 7671:2018",
  found: "seen in a secondary page",
  rows: [
    { areaMm2: 1.5, millivoltPerAmpMetre: 29 },
    { areaMm2: 2.5, millivoltPerAmpMetre: 18 },
    { areaMm2: 4, millivoltPerAmpMetre: 11 },
    { areaMm2: 6, millivoltPerAmpMetre: 7.3 },
    { areaMm2: 10, millivoltPerAmpMetre: 4.4 },
    { areaMm2: 16, millivoltPerAmpMetre: 2.8 },
  ],
};

export const NEC_K_METHOD = {
  clause: "K method (handbook, with NEC Chapter 9 Table 8 circular mils)",
  edition: "handbook practice, edition not recorded",
  found: "seen in a secondary page",
  caveat: "the constant for aluminium is recalled.",
  kOhmCircularMilPerFt: { copper: 12.9, aluminium: 21.2 },
} as const satisfies Citation & Record<string, unknown>;

export const NEC_DROP_ADVICE: Citation & { readonly branchPercent: number } = {
  clause: "NEC 210.19 informational note",
  edition: "NEC, edition not recorded",
  found: "memory",
  caveat: "advice, not a requirement: 3 % on the branch circuit, 5 % with the feeder.",
  branchPercent: 3,
};
