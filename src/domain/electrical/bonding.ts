// Supplementary bonding must hold two metal parts within the touch voltage while the
// fault lasts: R ≤ 50 V / Ia. BS 7671 415.2.2, IEC 60364-4-41 415.2.2.
import { outside } from "./bounds.ts";
import { type Figure, figure } from "./calculation.ts";
import { choose } from "./look-up.ts";
import { SUPPLEMENTARY_BONDING } from "./tables/bonding-limits.ts";

/**
 * Largest resistance of a supplementary bond, Ω.
 *
 * @param tripA current that trips the protective device, A (IΔn for an RCD, the 5 s
 *   operating current for an overcurrent device)
 * @param current "ac" (50 V) or "dc" (120 V)
 */
export function maxBondOhm(tripA: number, current: string = "ac"): Figure {
  const kind = choose("kind of current", current, ["ac", "dc"]);
  if (!kind.ok) return kind;
  const refusal = outside({ currentA: tripA });
  if (refusal) return refusal;
  const touchV = kind.word === "ac" ? SUPPLEMENTARY_BONDING.acV : SUPPLEMENTARY_BONDING.dcV;
  return figure(touchV / tripA);
}
