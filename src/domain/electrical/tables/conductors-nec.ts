// Copper conductors by American gauge: DC resistance at 75 °C (NEC Chapter 9 Table 8),
// ampacity in the 75 °C column (NEC Table 310.16) and the caps on protection of small
// conductors (NEC 240.4(D)).
import type { ReferenceTable } from "./reference-table.ts";

export const NEC_GAUGES = [
  "14",
  "12",
  "10",
  "8",
  "6",
  "4",
  "3",
  "2",
  "1",
  "1/0",
  "2/0",
  "3/0",
  "4/0",
] as const;
export type NecGauge = (typeof NEC_GAUGES)[number];

export interface NecConductorRow {
  readonly awg: NecGauge;
  readonly circularMils: number;
  /** Null where the table has no solid conductor. */
  readonly solidOhmPerKft: number | null;
  readonly strandedOhmPerKft: number;
}

function conductor(
  awg: NecGauge,
  circularMils: number,
  solidOhmPerKft: number | null,
  strandedOhmPerKft: number,
): NecConductorRow {
  return { awg, circularMils, solidOhmPerKft, strandedOhmPerKft };
}

export const NEC_CONDUCTORS: ReferenceTable<NecConductorRow> & {
  readonly temperatureC: number;
  readonly perK: number;
  /** Span for which the linear correction is used here; common practice, no source. */
  readonly fromC: number;
  readonly toC: number;
} = {
  id: "copper-resistance-nec",
  family: "NEC",
  clause: "NEC Chapter 9 Table 8",
  edition: "NEC, edition not recorded",
  found: "seen in a secondary page",
  caveat:
    "uncoated copper; the quoted values for 14 to 8 AWG are the solid rows, the stranded " +
    "ones there " +
    "and the sizes 3, 1 and 3/0 are recalled.",
  temperatureC: 75,
  perK: 0.00323,
  fromC: -40,
  toC: 90,
  rows: [
    conductor("14", 4110, 3.07, 3.14),
    conductor("12", 6530, 1.93, 1.98),
    conductor("10", 10_380, 1.21, 1.24),
    conductor("8", 16_510, 0.764, 0.778),
    conductor("6", 26_240, null, 0.491),
    conductor("4", 41_740, null, 0.308),
    conductor("3", 52_620, null, 0.245),
    conductor("2", 66_360, null, 0.194),
    conductor("1", 83_690, null, 0.154),
    conductor("1/0", 105_600, null, 0.122),
    conductor("2/0", 133_100, null, 0.0967),
    conductor("3/0", 167_800, null, 0.0766),
    conductor("4/0", 211_600, null, 0.0608),
  ],
};

export const NEC_AMPACITY: ReferenceTable<{ readonly awg: NecGauge; readonly ampacityA: number }> =
  {
    id: "ampacity-nec-75",
    family: "NEC",
    clause: "NEC Table 310.16, 75 °C copper",
    edition: "NEC 2020 numbering",
    found: "seen in a secondary page",
    caveat: "the sizes 3, 1 and 3/0 are recalled.",
    rows: [
      { awg: "14", ampacityA: 20 },
      { awg: "12", ampacityA: 25 },
      { awg: "10", ampacityA: 35 },
      { awg: "8", ampacityA: 50 },
      { awg: "6", ampacityA: 65 },
      { awg: "4", ampacityA: 85 },
      { awg: "3", ampacityA: 100 },
      { awg: "2", ampacityA: 115 },
      { awg: "1", ampacityA: 130 },
      { awg: "1/0", ampacityA: 150 },
      { awg: "2/0", ampacityA: 175 },
      { awg: "3/0", ampacityA: 200 },
      { awg: "4/0", ampacityA: 230 },
    ],
  };

export const SMALL_CONDUCTOR_CAPS: ReferenceTable<{
  readonly awg: NecGauge;
  readonly maxDeviceA: number;
}> = {
  id: "small-conductor-caps",
  family: "NEC",
  clause: "NEC 240.4(D)",
  edition: "NEC, edition not recorded",
  found: "seen in a secondary page",
  rows: [
    { awg: "14", maxDeviceA: 15 },
    { awg: "12", maxDeviceA: 20 },
    { awg: "10", maxDeviceA: 30 },
  ],
};
