// Largest resistance of a supplementary bond: 50 V / Ia, BS 7671 415.2.2.
import { z } from "zod";
import { maxBondOhm } from "../bonding.ts";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { CURRENT_KINDS } from "../disconnection-time.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { SUPPLEMENTARY_BONDING } from "../tables/bonding-limits.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  tripA: numberField(
    "currentA",
    "Current that trips the protective device: IΔn of an RCD, or the 5 s current of a fuse " +
      "or breaker",
  ),
  current: choiceField(CURRENT_KINDS, "Alternating (50 V) or direct current (120 V)").default("ac"),
  measuredOhm: numberField("resistanceOhm", "Resistance between the parts as read").optional(),
});

export const supplementaryBonding = defineCalculation({
  name: "supplementary-bonding",
  title: "Largest resistance of a supplementary bond",
  input,
  compute({ tripA, current, measuredOhm }) {
    const limit = maxBondOhm(tripA, current);
    if (!limit.ok) return limit;
    const touchV = current === "ac" ? SUPPLEMENTARY_BONDING.acV : SUPPLEMENTARY_BONDING.dcV;
    return answer({
      steps: [
        worked(
          "Largest resistance",
          "UL / Ia",
          filled`${touchV} / ${tripA}`,
          limit.value,
          "Ω",
          SUPPLEMENTARY_BONDING,
        ),
      ],
      from: [SUPPLEMENTARY_BONDING],
      caution: CAUTION.deadTest,
      judged: measuredOhm === undefined ? undefined : atMost(measuredOhm, limit.value, "Ω"),
    });
  },
  example: { tripA: 145, current: "ac", measuredOhm: 0.12 },
});
