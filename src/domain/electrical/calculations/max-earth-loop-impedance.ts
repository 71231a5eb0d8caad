// The earth-loop impedance that lets a breaker trip at once: BS 7671 Table 41.3 and its
// 80 % rule, IEC 60364-6 Annex D and its two-thirds rule, compared unrounded.
import { z } from "zod";
import { defineCalculation, refuse } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { EARTHING_SYSTEMS } from "../disconnection-time.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import {
  CURVES,
  instantTripCurrentA,
  loopRule,
  maxZsOhm,
  NOMINAL_U0_V,
  RULES,
} from "../loop-impedance.ts";
import { filled } from "../number-text.ts";
import { BREAKER_CURVES } from "../tables/loop-impedance-rules.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  system: choiceField(EARTHING_SYSTEMS, "Earthing system of the supply").default("TN"),
  curve: choiceField(CURVES, "Tripping curve of the breaker (IEC 60898-1)"),
  ratingA: numberField("ratingA", "Rated current of the breaker"),
  rule: choiceField(
    RULES,
    "tabulated: limit at operating temperature; eighty-percent (BS 7671) and two-thirds (IEC): " +
      "limit for a reading taken cold",
  ).default("tabulated"),
  u0V: numberField("voltageV", "Nominal voltage to earth").default(NOMINAL_U0_V),
  cMin: numberField("cMinFactor", "Voltage factor, to override the rule's own").optional(),
  measuredOhm: numberField("resistanceOhm", "Earth-loop impedance as read").optional(),
});

const TT_REFUSAL = refuse(
  "not-applicable",
  "In a TT system the electrode keeps the loop impedance too high for a breaker to trip; use the " +
    "calculation tt-electrode-resistance with the RCD's rated residual current.",
);

const NOTES = [
  "The limit is compared unrounded; printed tables round it.",
  "At this current a breaker trips within 0.1 s, which satisfies the TN AC times of Table " +
    "41.1 (recalled).",
];

export const maxEarthLoopImpedance = defineCalculation({
  name: "max-earth-loop-impedance",
  title: "Largest earth-loop impedance for a circuit-breaker",
  input,
  compute({ system, curve, ratingA, rule, u0V, cMin, measuredOhm }) {
    if (system === "TT") return TT_REFUSAL;
    const trip = instantTripCurrentA(curve, ratingA);
    if (!trip.ok) return trip;
    const limit = maxZsOhm(curve, ratingA, rule, u0V, cMin);
    if (!limit.ok) return limit;
    const { multiple, tripA } = trip;
    const row = loopRule(rule);
    const { factor } = row;
    const c = cMin ?? row.cMin;
    return answer({
      steps: [
        lookedUp("Trip multiple", BREAKER_CURVES, `type ${curve}`, multiple, "× In"),
        worked("Trip current Ia", "m × In", filled`${multiple} × ${ratingA}`, tripA, "A"),
        worked(
          `Largest Zs (${row.meaning})`,
          "factor × U0 × Cmin / Ia",
          filled`${factor} × ${u0V} × ${c} / ${tripA}`,
          limit.value,
          "Ω",
          row,
        ),
      ],
      from: [row, BREAKER_CURVES],
      caution: CAUTION.liveTest,
      notes: NOTES,
      judged: measuredOhm === undefined ? undefined : atMost(measuredOhm, limit.value, "Ω"),
    });
  },
  example: {
    system: "TN",
    curve: "B",
    ratingA: 32,
    rule: "eighty-percent",
    u0V: 230,
    measuredOhm: 0.82,
  },
});
