// Maximum DC resistance of plain copper conductors at 20 °C, IEC 60228 Table 2 (class 2,
// stranded) and Table 3 (class 5, flexible).
import type { Citation, ReferenceTable } from "./reference-table.ts";

export type ConductorClass = 2 | 5;

export interface ConductorRow {
  readonly areaMm2: number;
  readonly class2OhmPerKm: number;
  readonly class5OhmPerKm: number;
}

export const COPPER_RESISTANCE: ReferenceTable<ConductorRow> = {
  id: "copper-resistance-iec",
  family: "IEC",
  clause: "IEC 60228 Tables 2 and 3",
  edition: "IEC 60228:2004",
  found: "seen in a secondary page",
  caveat: "the rows 1, 95 and 120 mm² are recalled.",
  rows: [
    { areaMm2: 1, class2OhmPerKm: 18.1, class5OhmPerKm: 19.5 },
    { areaMm2: 1.5, class2OhmPerKm: 12.1, class5OhmPerKm: 13.3 },
    { areaMm2: 2.5, class2OhmPerKm: 7.41, class5OhmPerKm: 7.98 },
    { areaMm2: 4, class2OhmPerKm: 4.61, class5OhmPerKm: 4.95 },
    { areaMm2: 6, class2OhmPerKm: 3.08, class5OhmPerKm: 3.3 },
    { areaMm2: 10, class2OhmPerKm: 1.83, class5OhmPerKm: 1.91 },
    { areaMm2: 16, class2OhmPerKm: 1.15, class5OhmPerKm: 1.21 },
    { areaMm2: 25, class2OhmPerKm: 0.727, class5OhmPerKm: 0.78 },
    { areaMm2: 35, class2OhmPerKm: 0.524, class5OhmPerKm: 0.554 },
    { areaMm2: 50, class2OhmPerKm: 0.387, class5OhmPerKm: 0.386 },
    { areaMm2: 70, class2OhmPerKm: 0.268, class5OhmPerKm: 0.272 },
    { areaMm2: 95, class2OhmPerKm: 0.193, class5OhmPerKm: 0.206 },
    { areaMm2: 120, class2OhmPerKm: 0.153, class5OhmPerKm: 0.161 },
  ],
};

export type TemperatureMethod = "iec-60228-kt" | "copper-exact" | "alpha-00393";

export interface TemperatureMethodRow extends Citation {
  readonly method: TemperatureMethod;
  readonly formula: string;
  /** Coefficient a of R(t) = R20 · (1 + a·(t − 20)). */
  readonly perK: number;
}

const COPPER_ZERO_C = 234.5;

export const TEMPERATURE_METHODS: ReferenceTable<TemperatureMethodRow> & {
  readonly fromC: number;
  readonly toC: number;
} = {
  id: "resistance-temperature",
  family: "IEC",
  clause: "Resistance of copper against temperature",
  edition: "IEC 60228, IEC 60287 and BS 7671 side by side",
  found: "memory",
  caveat: "the methods differ by up to 0.4 % at 70 °C; use one throughout a job.",
  fromC: 5,
  toC: 100,
  rows: [
    {
      method: "iec-60228-kt",
      formula: "R20 × (1 + a × (t − 20)), a = 0.004",
      perK: 0.004,
      clause: "IEC 60228 Annex, Kt; ×1.20 at 70 °C in BS 7671",
      edition: "IEC 60228:2004",
      found: "seen in a secondary page",
    },
    {
      method: "copper-exact",
      formula: "R20 × (1 + a × (t − 20)), a = 1/254.5",
      perK: 1 / (COPPER_ZERO_C + 20),
      clause: "IEC 60228 Annex, exact form for copper",
      edition: "IEC 60228:2004",
      found: "memory",
    },
    {
      method: "alpha-00393",
      formula: "R20 × (1 + a × (t − 20)), a = 0.00393",
      perK: 0.00393,
      clause: "IEC 60287 (α20 of copper)",
      edition: "IEC 60287, edition not recorded",
      found: "memory",
    },
  ],
};
