// Current-carrying capacity of copper cables, reference method C (clipped direct), 30 °C
// air: IEC 60364-5-52. Note which table is which: B.52.2 is PVC with two loaded
// conductors, B.52.4 PVC with three, B.52.3 XLPE with two.
import type { ReferenceTable } from "./reference-table.ts";

export type CableInsulation = "pvc" | "xlpe";

export interface AmpacityRow {
  readonly areaMm2: number;
  readonly ampacityA: number;
}

export interface AmpacityTable extends ReferenceTable<AmpacityRow> {
  readonly insulation: CableInsulation;
  readonly loadedConductors: 2 | 3;
}

const AREAS_MM2 = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50] as const;

function rows(capacitiesA: readonly number[]): readonly AmpacityRow[] {
  return AREAS_MM2.map((areaMm2, index) => ({ areaMm2, ampacityA: capacitiesA[index] as number }));
}

const METHOD_C = {
  family: "IEC",
  edition: "IEC 60364-5-52:2009",
  found: "memory",
} as const;

export const AMPACITY_IEC: readonly AmpacityTable[] = [
  {
    ...METHOD_C,
    id: "ampacity-b-52-2",
    clause: "IEC 60364-5-52 Table B.52.2, method C",
    insulation: "pvc",
    loadedConductors: 2,
    rows: rows([19.5, 27, 36, 46, 63, 85, 112, 138, 168]),
  },
  {
    ...METHOD_C,
    id: "ampacity-b-52-4",
    clause: "IEC 60364-5-52 Table B.52.4, method C",
    insulation: "pvc",
    loadedConductors: 3,
    rows: rows([17.5, 24, 32, 41, 57, 76, 96, 119, 144]),
  },
  {
    ...METHOD_C,
    id: "ampacity-b-52-3",
    clause: "IEC 60364-5-52 Table B.52.3, method C",
    caveat: "the values depend on the edition.",
    insulation: "xlpe",
    loadedConductors: 2,
    rows: rows([24, 33, 45, 58, 80, 107, 138, 171, 209]),
  },
];
