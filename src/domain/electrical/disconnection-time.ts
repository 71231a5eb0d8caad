// A faulty circuit must be cut off before the shock kills: the time depends on earthing
// system, current and voltage to earth. IEC 60364-4-41, Table 41.1 and 411.3.2.
import { outside } from "./bounds.ts";
import { type Figure, figure, type Refusal, refuse } from "./calculation.ts";
import { choose } from "./look-up.ts";
import {
  type CurrentKind,
  DISCONNECTION_TIMES_2005,
  DISCONNECTION_TIMES_2017,
  DISTRIBUTION_TIMES,
  type DisconnectionTimeRow,
  type EarthingSystem,
} from "./tables/disconnection-times.ts";
import type { ReferenceTable } from "./tables/reference-table.ts";

export const EARTHING_SYSTEMS = ["TN", "TT"] as const;
export const CURRENT_KINDS = ["ac", "dc"] as const;
export const TABLE_41_1_EDITIONS = ["2017-amendment", "2005"] as const;
export type Table411Edition = (typeof TABLE_41_1_EDITIONS)[number];

const FLOOR_V = 50;
const LOW_VOLTAGE_AC_V = 1000;

export interface FinalCircuit {
  system: EarthingSystem;
  current: CurrentKind;
  u0V: number;
  edition: Table411Edition;
}

export type TimedRow =
  | { ok: true; row: DisconnectionTimeRow; maxS: number; table: ReferenceTable<unknown> }
  | Refusal;

/** Refuses extra-low and high voltage, which automatic disconnection is not about. */
export function outsideLowVoltage(current: CurrentKind, u0V: number): Refusal | undefined {
  const refusal = outside({ voltageV: u0V });
  if (refusal) return refusal;
  if (u0V <= FLOOR_V) {
    const problem =
      `Table 41.1 starts above ${FLOOR_V} V to earth, ${u0V} V is not above it; treat the ` +
      "circuit by the rules for extra-low voltage.";
    return refuse("not-applicable", problem);
  }
  if (current === "dc" || u0V <= LOW_VOLTAGE_AC_V) return undefined;
  const problem =
    `${u0V} V AC to earth is above low voltage (${LOW_VOLTAGE_AC_V} V); Table 41.1 does not ` +
    "reach it.";
  return refuse("out-of-range", problem);
}

/** The row of Table 41.1 for a final circuit; refused where the table gives only a note. */
export function finalCircuitRow(circuit: FinalCircuit): TimedRow {
  const { system, current, u0V } = circuit;
  const refusal = outsideLowVoltage(current, u0V);
  if (refusal) return refusal;
  const table = circuit.edition === "2005" ? DISCONNECTION_TIMES_2005 : DISCONNECTION_TIMES_2017;
  const row = table.rows.find((candidate) => {
    const inBand = u0V > candidate.aboveV && u0V <= candidate.upToV;
    return candidate.system === system && candidate.current === current && inBand;
  });
  if (row?.maxS === undefined || row.maxS === null) {
    const problem =
      `Table 41.1 gives no time for ${system} ${current.toUpperCase()} at ${u0V} V, only a ` +
      "note that disconnection may be needed for other reasons; ask the designer.";
    return refuse("not-applicable", problem);
  }
  return { ok: true, row, maxS: row.maxS, table };
}

/**
 * Longest disconnection time of a final circuit, in seconds.
 *
 * @param system "TN" or "TT"
 * @param current "ac" or "dc"
 * @param u0V nominal voltage to earth, V
 * @param edition which Table 41.1; the TN DC times differ
 * Source: IEC 60364-4-41 Table 41.1.
 */
export function maxDisconnectionTimeS(
  system: string,
  current: string,
  u0V: number,
  edition: string = "2017-amendment",
): Figure {
  const earthing = choose("earthing system", system, EARTHING_SYSTEMS);
  if (!earthing.ok) return earthing;
  const kind = choose("kind of current", current, CURRENT_KINDS);
  if (!kind.ok) return kind;
  const issue = choose("edition of Table 41.1", edition, TABLE_41_1_EDITIONS);
  if (!issue.ok) return issue;
  const circuit = { system: earthing.word, current: kind.word, u0V, edition: issue.word };
  const found = finalCircuitRow(circuit);
  return found.ok ? figure(found.maxS) : found;
}

/** Longest disconnection time of a distribution circuit, s (IEC 60364-4-41 411.3.2.3, .4). */
export function distributionTimeS(system: EarthingSystem): number {
  return DISTRIBUTION_TIMES.rows.find((row) => row.system === system)?.maxS as number;
}
