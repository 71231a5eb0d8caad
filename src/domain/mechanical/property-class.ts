// Strength of carbon and alloy steel bolts up to M16 (ISO 898-1, from memory). Stainless bolts
// (ISO 3506-1) have other strengths and gall: they are refused here, not approximated.

export interface PropertyClass {
  name: string;
  /** 0.2 % proof strength, minimum. */
  yieldMPa: number;
  /** Stress under proof load. */
  proofMPa: number;
}

export const PROPERTY_CLASSES: readonly PropertyClass[] = [
  { name: "8.8", yieldMPa: 640, proofMPa: 580 },
  { name: "10.9", yieldMPa: 940, proofMPa: 830 },
  { name: "12.9", yieldMPa: 1100, proofMPa: 970 },
];

/** A property class by its mark on the bolt head. */
export function findPropertyClass(
  name: string,
): { ok: true; propertyClass: PropertyClass } | { ok: false; problem: string } {
  const found = PROPERTY_CLASSES.find((one) => one.name === name.trim());
  if (found) return { ok: true, propertyClass: found };
  const known = PROPERTY_CLASSES.map((one) => one.name).join(", ");
  return { ok: false, problem: `property class ${name} is not held; only steel ${known}` };
}
