// What a main bonding conductor should read, and the 0.1 Ω that IET Guidance Note 3
// accepts where less is expected.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { conductorResistanceOhm, copperOhmPerKm } from "../conductor-resistance.ts";
import { numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled, shown } from "../number-text.ts";
import { BOND_LIMITS, type BondLimitRow } from "../tables/bonding-limits.ts";
import { COPPER_RESISTANCE } from "../tables/conductor-resistance-iec.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  areaMm2: numberField("areaMm2", "Area of the bonding conductor, copper class 2"),
  lengthM: numberField("lengthM", "Length of the bonding conductor"),
  measuredOhm: numberField("resistanceOhm", "Resistance as read, leads nulled").optional(),
});

export const mainBonding = defineCalculation({
  name: "main-bonding",
  title: "Resistance of a main bonding conductor",
  input,
  compute({ areaMm2, lengthM, measuredOhm }) {
    const perKm = copperOhmPerKm(2, areaMm2);
    if (!perKm.ok) return perKm;
    const expected = conductorResistanceOhm(2, areaMm2, lengthM);
    if (!expected.ok) return expected;
    const limit = BOND_LIMITS.rows.find((row) => row.basis === "main-bonding") as BondLimitRow;
    const limitHolds = expected.value < limit.maxOhm;
    const notHeld =
      `More than ${shown(limit.maxOhm)} Ω is expected over this length, so no limit is set ` +
      "here: compare the reading with what is expected.";
    const judges = limitHolds && measuredOhm !== undefined;
    return answer({
      steps: [
        lookedUp("Conductor", COPPER_RESISTANCE, `${areaMm2} mm², class 2`, perKm.value, "Ω/km"),
        worked(
          "Expected at 20 °C",
          "L × r / 1000",
          filled`${lengthM} × ${perKm.value} / 1000`,
          expected.value,
          "Ω",
        ),
      ],
      from: [COPPER_RESISTANCE, limit],
      caution: CAUTION.deadTest,
      notes: limitHolds ? [] : [notHeld],
      judged: judges ? atMost(measuredOhm, limit.maxOhm, "Ω") : undefined,
    });
  },
  example: { areaMm2: 10, lengthM: 25, measuredOhm: 0.05 },
});
