// A cable in warm air or among others carries less than on paper: Iz = It · Ca · Cg.
// IEC 60364-5-52 Tables B.52.2 to B.52.4, B.52.14, B.52.17; NEC 310.15, 310.16, 240.4(D).
import { outside } from "./bounds.ts";
import { type Figure, figure, type Refusal, refuse } from "./calculation.ts";
import { choose, exactRow, firstRow, type RowFound } from "./look-up.ts";
import { shown } from "./number-text.ts";
import {
  AMPACITY_IEC,
  type AmpacityRow,
  type AmpacityTable,
  type CableInsulation,
} from "./tables/ampacity-iec.ts";
import { NEC_AMPACITY, NEC_GAUGES, SMALL_CONDUCTOR_CAPS } from "./tables/conductors-nec.ts";
import {
  AMBIENT_IEC,
  AMBIENT_NEC,
  type AmbientRow,
  type AmbientTable,
  GROUPING_IEC,
  GROUPING_NEC,
  type GroupingRow,
} from "./tables/derating-factors.ts";

export const CABLE_INSULATIONS = ["pvc", "xlpe"] as const;

export type TableFound = { ok: true; table: AmpacityTable; row: AmpacityRow } | Refusal;

/** The table and row for a cable by method C; refused where no such table is held. */
export function ampacityRow(
  insulation: CableInsulation,
  loadedConductors: number,
  areaMm2: number,
): TableFound {
  const table = AMPACITY_IEC.find((candidate) => {
    return candidate.insulation === insulation && candidate.loadedConductors === loadedConductors;
  });
  if (!table) {
    const problem =
      `No table is held here for ${insulation.toUpperCase()} with ${loadedConductors} loaded ` +
      "conductors; take the figure from IEC 60364-5-52 Annex B.";
    return refuse("not-applicable", problem);
  }
  const found = exactRow(table, "areaMm2", areaMm2, "a conductor area in mm² of");
  return found.ok ? { ok: true, table, row: found.row } : found;
}

/** The ambient factor's row; between two rows the warmer one counts. */
export function ambientRow(table: AmbientTable, ambientC: number): RowFound<AmbientRow> {
  const refusal = outside({ temperatureC: ambientC });
  if (refusal) return refusal;
  const lastC = table.rows.at(-1)?.upToC as number;
  const covers = (row: AmbientRow) => ambientC >= table.fromC && ambientC <= row.upToC;
  return firstRow(
    table,
    covers,
    `${shown(ambientC)} °C`,
    `${shown(table.fromC)} °C to ${lastC} °C`,
  );
}

/** The grouping factor's row; between two rows the larger group counts. */
export function groupingRow(code: "IEC" | "NEC", grouped: number): RowFound<GroupingRow> {
  const refusal = outside(code === "IEC" ? { circuitCount: grouped } : { conductorCount: grouped });
  if (refusal) return refusal;
  const table = code === "IEC" ? GROUPING_IEC : GROUPING_NEC;
  const last = table.rows.at(-1)?.upTo as number;
  return firstRow(table, (row) => grouped <= row.upTo, `${grouped} grouped`, `1 to ${last}`);
}

/**
 * Current-carrying capacity of a copper cable, method C, with derating, A.
 *
 * @param insulation "pvc" or "xlpe"
 * @param loadedConductors 2 or 3
 * @param areaMm2 conductor area, mm²
 * @param ambientC air temperature, °C
 * @param circuits number of circuits bunched together
 */
export function iecAmpacityA(
  insulation: string,
  loadedConductors: number,
  areaMm2: number,
  ambientC: number = 30,
  circuits: number = 1,
): Figure {
  const known = choose("cable insulation", insulation, CABLE_INSULATIONS);
  if (!known.ok) return known;
  const base = ampacityRow(known.word, loadedConductors, areaMm2);
  if (!base.ok) return base;
  const ambient = ambientRow(AMBIENT_IEC[known.word], ambientC);
  if (!ambient.ok) return ambient;
  const grouping = groupingRow("IEC", circuits);
  if (!grouping.ok) return grouping;
  return figure(base.row.ampacityA * ambient.row.factor * grouping.row.factor);
}

/** Ampacity of a copper conductor by gauge, 75 °C column, with derating, A. */
export function necAmpacityA(awg: string, ambientC: number = 30, conductors: number = 3): Figure {
  const gauge = choose("gauge", awg, NEC_GAUGES);
  if (!gauge.ok) return gauge;
  const base = exactRow(NEC_AMPACITY, "awg", gauge.word, "gauge");
  if (!base.ok) return base;
  const ambient = ambientRow(AMBIENT_NEC, ambientC);
  if (!ambient.ok) return ambient;
  const grouping = groupingRow("NEC", conductors);
  if (!grouping.ok) return grouping;
  return figure(base.row.ampacityA * ambient.row.factor * grouping.row.factor);
}

/** Cap on the protective device of a small copper conductor, A; undefined for larger ones. */
export function smallConductorCapA(awg: string): number | undefined {
  return SMALL_CONDUCTOR_CAPS.rows.find((row) => row.awg === awg)?.maxDeviceA;
}
