// What a conductor stands during a fault: k keyed by material, insulation and role,
// because 143 means one thing for an XLPE core in a cable and another for a separate PVC
// covered conductor. IEC 60364-4-43 Table 43A, IEC 60364-5-54 Annex A.
import type { Citation, ReferenceTable } from "./reference-table.ts";

export type ConductorMaterial = "copper" | "aluminium";
export type FaultInsulation = "pvc" | "xlpe";
export type ConductorRole = "core-in-cable" | "separate";

export interface WithstandRow {
  readonly material: ConductorMaterial;
  readonly insulation: FaultInsulation;
  readonly role: ConductorRole;
  readonly k: number;
  readonly initialC: number;
  readonly finalC: number;
}

export const WITHSTAND_K: ReferenceTable<WithstandRow> & {
  readonly maxS: number;
  /** The PVC rows hold up to this conductor area. */
  readonly maxAreaMm2: number;
} = {
  id: "adiabatic-k",
  family: "IEC",
  clause: "IEC 60364-4-43 Table 43A; IEC 60364-5-54 Annex A",
  edition: "IEC 60364-4-43:2008; IEC 60364-5-54:2011",
  found: "memory",
  maxS: 5,
  maxAreaMm2: 300,
  rows: [
    core("copper", "pvc", 115, 70, 160),
    core("copper", "xlpe", 143, 90, 250),
    separate("copper", "pvc", 143, 160),
    separate("copper", "xlpe", 176, 250),
    core("aluminium", "pvc", 76, 70, 160),
    core("aluminium", "xlpe", 94, 90, 250),
    separate("aluminium", "pvc", 95, 160),
    separate("aluminium", "xlpe", 116, 250),
  ],
};

function core(
  material: ConductorMaterial,
  insulation: FaultInsulation,
  k: number,
  initialC: number,
  finalC: number,
): WithstandRow {
  return { material, insulation, role: "core-in-cable", k, initialC, finalC };
}

function separate(
  material: ConductorMaterial,
  insulation: FaultInsulation,
  k: number,
  finalC: number,
): WithstandRow {
  return { material, insulation, role: "separate", k, initialC: 30, finalC };
}

export const ADIABATIC: Citation = {
  clause: "IEC 60364-5-54 543.1.2",
  edition: "IEC 60364-5-54:2011",
  found: "memory",
};

export const STANDARD_AREAS: Citation & { readonly areasMm2: readonly number[] } = {
  clause: "IEC 60228 nominal areas",
  edition: "IEC 60228:2004",
  found: "memory",
  areasMm2: [1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300],
};
