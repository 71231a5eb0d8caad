// Requirement: a unit is looked at when its box is opened, before it counts as stock. A cell that
// was crushed, pierced or dropped may go into thermal runaway hours later; damaged or defective
// lithium cells are carried under rules of their own (ADR special provision 376, UN 38.3; from
// memory), so such a unit is put in quarantine and is neither carried nor installed.

/** What is looked at, in the order of opening a box; common practice, no source. */
export const UNPACK_CHECKS = [
  ...(["packaging", "tilt-marker", "casing", "terminals", "heat-or-smell", "contents"] as const),
] as const;
export type UnpackCheck = (typeof UNPACK_CHECKS)[number];

export const CHECK_RESULTS = ["good", "bad", "not-looked-at"] as const;
export type CheckResult = (typeof CHECK_RESULTS)[number];

export type UnpackResults = Readonly<Record<UnpackCheck, CheckResult>>;

export const CONDITIONS = ["sound", "marked", "damaged"] as const;
/** marked: only its packaging, or what should lie beside it, is not as it should be. */
export type Condition = (typeof CONDITIONS)[number];

/** What concerns the unit itself; the rest concerns its box. */
const OF_THE_UNIT: readonly UnpackCheck[] = ["casing", "terminals", "heat-or-smell"];

export const DAMAGED_CAUTION =
  "Stop and keep clear: a damaged cell may heat up, vent or burn, hours later too. Do not " +
  "charge, open, carry or install it. Leave it outside, away from buildings and people if it " +
  "can be moved safely, and ring the maker; smoke, hissing, swelling or heat: keep everyone " +
  "away and call the fire service. The maker's instructions and local codes prevail.";

/**
 * The condition that the results mean. A tripped tilt or shock marker on a battery pack counts as
 * damage: nobody sees into a cell. What was not looked at is not taken as good where it concerns
 * the unit itself.
 * @returns the condition, or which checks are still to be made
 */
export function conditionFrom(
  kind: string,
  results: UnpackResults,
): { ok: true; condition: Condition } | { ok: false; toLookAt: UnpackCheck[] } {
  const isPack = kind === "battery-pack";
  const decisive = UNPACK_CHECKS.filter(
    (check) => OF_THE_UNIT.includes(check) || (isPack && check === "tilt-marker"),
  );
  if (decisive.some((check) => results[check] === "bad")) {
    return { ok: true, condition: "damaged" };
  }
  const toLookAt = OF_THE_UNIT.filter((check) => results[check] === "not-looked-at");
  if (toLookAt.length > 0) return { ok: false, toLookAt };
  const isMarked = UNPACK_CHECKS.some((check) => results[check] === "bad");
  return { ok: true, condition: isMarked ? "marked" : "sound" };
}
