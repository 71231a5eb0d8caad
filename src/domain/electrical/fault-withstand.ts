// A conductor must survive the heat of a fault until it is cut off: S ≥ √(I²·t)/k, valid
// up to 5 s. IEC 60364-5-54 543.1.2, IEC 60364-4-43 434.5.2.
import { outside } from "./bounds.ts";
import { type Figure, figure, refuse } from "./calculation.ts";
import { choose, type RowFound } from "./look-up.ts";
import { STANDARD_AREAS, WITHSTAND_K, type WithstandRow } from "./tables/fault-withstand.ts";

export const FAULT_MATERIALS = ["copper", "aluminium"] as const;
export const FAULT_INSULATIONS = ["pvc", "xlpe"] as const;
export const CONDUCTOR_ROLES = ["core-in-cable", "separate"] as const;

/** The row that gives k for a material, an insulation and a role. */
export function withstandRow(
  material: string,
  insulation: string,
  role: string,
): RowFound<WithstandRow> {
  const metal = choose("conductor material", material, FAULT_MATERIALS);
  if (!metal.ok) return metal;
  const cover = choose("conductor insulation", insulation, FAULT_INSULATIONS);
  if (!cover.ok) return cover;
  const part = choose("role of the conductor", role, CONDUCTOR_ROLES);
  if (!part.ok) return part;
  const row = WITHSTAND_K.rows.find((candidate) => {
    const sameCore = candidate.material === metal.word && candidate.insulation === cover.word;
    return sameCore && candidate.role === part.word;
  });
  return { ok: true, row: row as WithstandRow };
}

/**
 * Least conductor area for a fault, mm²: √(I²·t)/k.
 *
 * @param faultCurrentA RMS fault current, A
 * @param durationS time until it is cut off, s; refused above 5 s
 * @param material "copper" or "aluminium"
 * @param insulation "pvc" or "xlpe"
 * @param role "core-in-cable" or "separate"
 */
export function adiabaticMinMm2(
  faultCurrentA: number,
  durationS: number,
  material: string,
  insulation: string,
  role: string,
): Figure {
  const refusal = outside({ faultCurrentA, durationS });
  if (refusal) return refusal;
  if (durationS > WITHSTAND_K.maxS) {
    const problem =
      `The adiabatic formula holds up to ${WITHSTAND_K.maxS} s and the fault lasts ` +
      `${durationS} s; shorten the disconnection time or have heat loss allowed for by ` +
      "calculation (IEC 60949).";
    return refuse("not-applicable", problem);
  }
  const found = withstandRow(material, insulation, role);
  if (!found.ok) return found;
  const areaMm2 = (faultCurrentA * Math.sqrt(durationS)) / found.row.k;
  if (found.row.insulation !== "pvc" || areaMm2 <= WITHSTAND_K.maxAreaMm2) return figure(areaMm2);
  const problem =
    `The k of ${found.row.k} for PVC holds up to ${WITHSTAND_K.maxAreaMm2} mm² and ` +
    `${Math.ceil(areaMm2)} mm² would be needed; take k for larger conductors from the standard.`;
  return refuse("out-of-range", problem);
}

/** The smallest standard area at or above the one worked out; undefined above 300 mm². */
export function nextStandardAreaMm2(areaMm2: number): number | undefined {
  return STANDARD_AREAS.areasMm2.find((standard) => standard >= areaMm2 * (1 - 1e-9));
}
