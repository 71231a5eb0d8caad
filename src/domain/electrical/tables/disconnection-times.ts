// Maximum disconnection times for automatic disconnection of supply (fault protection):
// IEC 60364-4-41, Table 41.1 and clauses 411.3.2.3 and 411.3.2.4.
import type { ReferenceTable } from "./reference-table.ts";

export type EarthingSystem = "TN" | "TT";
export type CurrentKind = "ac" | "dc";

export interface DisconnectionTimeRow {
  readonly system: EarthingSystem;
  readonly current: CurrentKind;
  /** Nominal voltage to earth: above the first, up to and including the second. */
  readonly aboveV: number;
  readonly upToV: number;
  /** Null where the table gives no time, only a note. */
  readonly maxS: number | null;
}

const BANDS_V = [
  [50, 120],
  [120, 230],
  [230, 400],
  [400, 1500],
] as const;

function rowsFor(system: EarthingSystem, current: CurrentKind, times: readonly (number | null)[]) {
  return BANDS_V.map(([aboveV, upToV], band): DisconnectionTimeRow => {
    return { system, current, aboveV, upToV, maxS: times[band] ?? null };
  });
}

const COMMON_ROWS = [
  ...rowsFor("TN", "ac", [0.8, 0.4, 0.2, 0.1]),
  ...rowsFor("TT", "ac", [0.3, 0.2, 0.07, 0.04]),
  ...rowsFor("TT", "dc", [null, 0.4, 0.2, 0.1]),
];

export const DISCONNECTION_TIMES_2005: ReferenceTable<DisconnectionTimeRow> = {
  id: "disconnection-times-2005",
  family: "IEC",
  clause: "IEC 60364-4-41 Table 41.1",
  edition: "IEC 60364-4-41:2005",
  found: "seen in a secondary page",
  rows: [...COMMON_ROWS, ...rowsFor("TN", "dc", [null, 5, 0.4, 0.1])],
};

export const DISCONNECTION_TIMES_2017: ReferenceTable<DisconnectionTimeRow> = {
  id: "disconnection-times-2017",
  family: "IEC",
  clause: "IEC 60364-4-41 Table 41.1",
  edition: "IEC 60364-4-41:2005+A1:2017",
  found: "seen in a secondary page",
  caveat:
    "the TN DC time for 120 V to 230 V is 1 s since the 2017 amendment (recalled) and was 5 " +
    "s before.",
  rows: [...COMMON_ROWS, ...rowsFor("TN", "dc", [null, 1, 0.4, 0.1])],
};

export const DISTRIBUTION_TIMES: ReferenceTable<{
  readonly system: EarthingSystem;
  readonly maxS: number;
}> = {
  id: "distribution-disconnection-times",
  family: "IEC",
  clause: "IEC 60364-4-41 411.3.2.3, 411.3.2.4",
  edition: "IEC 60364-4-41:2005",
  found: "memory",
  rows: [
    { system: "TN", maxS: 5 },
    { system: "TT", maxS: 1 },
  ],
};
