// Trip times and trip currents of residual current devices: IEC 61008-1 and 61009-1,
// Table 1, for general and selective (S) types; ground-fault circuit interrupters
// class A: UL 943.
import type { Citation, ReferenceTable } from "./reference-table.ts";

export type RcdType = "general" | "S";
export type RcdMultiple = 1 | 2 | 5;

export interface RcdTripRow {
  readonly type: RcdType;
  readonly multiple: RcdMultiple;
  /** Null for a type without intentional delay. */
  readonly minMs: number | null;
  readonly maxMs: number;
}

export const RCD_TRIP_TIMES: ReferenceTable<RcdTripRow> = {
  id: "rcd-trip-times",
  family: "IEC",
  clause: "IEC 61008-1 / IEC 61009-1 Table 1",
  edition: "IEC 61008-1, edition not recorded",
  found: "seen in a secondary page",
  caveat: "the shortest times of type S at 2 and 5 times the rated residual current are recalled.",
  rows: [
    { type: "general", multiple: 1, minMs: null, maxMs: 300 },
    { type: "general", multiple: 2, minMs: null, maxMs: 150 },
    { type: "general", multiple: 5, minMs: null, maxMs: 40 },
    { type: "S", multiple: 1, minMs: 130, maxMs: 500 },
    { type: "S", multiple: 2, minMs: 60, maxMs: 200 },
    { type: "S", multiple: 5, minMs: 50, maxMs: 150 },
  ],
};

/** Selective types are made for more than this rated residual current. */
export const SELECTIVE_ABOVE: Citation & { readonly residualCurrentMa: number } = {
  clause: "IEC 61008-1 (type S, range of rated residual currents)",
  edition: "IEC 61008-1, edition not recorded",
  found: "memory",
  residualCurrentMa: 30,
};

export const ADDITIONAL_PROTECTION_TEST: Citation & { readonly maxMs: number } = {
  clause: "BS 7671 643.8",
  edition: "BS 7671:2018+A2:2022",
  found: "memory",
  caveat:
    "an AC test at the rated residual current within 300 ms is held sufficient; the test at five " +
    "times is optional; earlier editions differ.",
  maxMs: 300,
};

export interface TripCurrentRow {
  readonly waveform: "sinusoidal" | "pulsating";
  /** Row holds for devices above the first and up to the second rated residual current. */
  readonly aboveMa: number;
  readonly upToMa: number;
  /** Multiples of the rated residual current; null where no lower limit is held here. */
  readonly lowest: number | null;
  readonly highest: number;
}

export const RCD_TRIP_CURRENTS: ReferenceTable<TripCurrentRow> = {
  id: "rcd-trip-currents",
  family: "IEC",
  clause: "IEC 61008-1 trip current (sinusoidal; type A pulsating, 0° delay)",
  edition: "IEC 61008-1, edition not recorded",
  found: "memory",
  rows: [
    { waveform: "sinusoidal", aboveMa: 0, upToMa: 30_000, lowest: 0.5, highest: 1 },
    { waveform: "pulsating", aboveMa: 0, upToMa: 10, lowest: null, highest: 2 },
    { waveform: "pulsating", aboveMa: 10, upToMa: 30_000, lowest: 0.35, highest: 1.4 },
  ],
};

export const GFCI_CLASS_A = {
  clause: "UL 943 class A",
  edition: "UL 943, edition not recorded",
  found: "memory",
  tripFromMa: 4,
  tripByMa: 6,
  /** The curve (numerator / I) ^ exponent gives seconds for I in mA, up to `curveUpToMa`. */
  numeratorMa: 20,
  exponent: 1.43,
  curveUpToMa: 264,
} as const satisfies Citation & Record<string, unknown>;
