// Bench and commissioning checks whose limits come from arithmetic, from the CAN standard
// or from trade practice.
import type { Citation } from "./reference-table.ts";

export const CAN_TERMINATION = {
  clause: "ISO 11898-2",
  edition: "ISO 11898-2:2016",
  found: "memory",
  nominalOhm: 120,
  minOhm: 100,
  maxOhm: 130,
  wanted: 2,
} as const satisfies Citation & Record<string, unknown>;

export const WIRE_GAUGE = {
  clause: "ASTM B258",
  edition: "ASTM B258, edition not recorded",
  found: "memory",
  /** Diameter in mm of gauge 36, and the ratio of diameters over 39 gauges. */
  gauge36Mm: 0.127,
  ratio: 92,
  gaugesPerRatio: 39,
  thinnest: 40,
} as const satisfies Citation & Record<string, unknown>;

export const CIRCUIT_LAW: Citation = {
  clause: "Ohm's and Kirchhoff's laws",
  edition: "physics; no edition",
  found: "computed",
};

export const PROSPECTIVE_FAULT: Citation = {
  clause: "IEC 60364-4-43 434.1, 434.5.1 (breaking capacity not below the fault current)",
  edition: "IEC 60364-4-43:2008",
  found: "memory",
};

export const RING_FINAL: Citation = {
  clause: "IET Guidance Note 3 (ring final circuit continuity)",
  edition: "GN3, 9th edition",
  found: "memory",
};

export const BENCH_PRACTICE: Citation = {
  clause: "IEC 60364-6 6.4.3.6 (polarity)",
  edition: "IEC 60364-6:2016",
  found: "memory",
  caveat: "the order of the check is common practice, no source.",
};
