// What a copper conductor carries by NEC Table 310.16 (75 °C), derated by 310.15, with the
// cap on its protection by 240.4(D) shown beside it.
import { z } from "zod";
import { ambientRow, groupingRow, smallConductorCapA } from "../ampacity.ts";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { exactRow } from "../look-up.ts";
import { filled } from "../number-text.ts";
import { NEC_AMPACITY, NEC_GAUGES, SMALL_CONDUCTOR_CAPS } from "../tables/conductors-nec.ts";
import { AMBIENT_NEC, GROUPING_NEC } from "../tables/derating-factors.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  awg: choiceField(NEC_GAUGES, "Conductor size, AWG, copper"),
  ambientC: numberField("temperatureC", "Air temperature around the raceway or cable").default(30),
  conductors: numberField("conductorCount", "Current-carrying conductors together").default(3),
  loadA: numberField("currentA", "Load current the conductor must carry").optional(),
});

function capNote(awg: string): string {
  const capA = smallConductorCapA(awg);
  if (capA === undefined) return "Terminals rated 60 °C lower the figure: check the equipment.";
  return (
    `Whatever the ampacity, protection of ${awg} AWG copper is capped at ${capA} A ` +
    `(${SMALL_CONDUCTOR_CAPS.clause}).`
  );
}

export const ampacityNec = defineCalculation({
  name: "ampacity-nec",
  title: "Ampacity of a conductor (NEC)",
  input,
  compute({ awg, ambientC, conductors, loadA }) {
    const base = exactRow(NEC_AMPACITY, "awg", awg, "gauge");
    if (!base.ok) return base;
    const ambient = ambientRow(AMBIENT_NEC, ambientC);
    if (!ambient.ok) return ambient;
    const group = groupingRow("NEC", conductors);
    if (!group.ok) return group;
    const tabulatedA = base.row.ampacityA;
    const [ca, cg] = [ambient.row.factor, group.row.factor];
    const ampacityA = tabulatedA * ca * cg;
    const substituted = filled`${tabulatedA} × ${ca} × ${cg}`;
    return answer({
      steps: [
        lookedUp("Tabulated", NEC_AMPACITY, `${awg} AWG`, tabulatedA, "A"),
        lookedUp("Ambient", AMBIENT_NEC, `up to ${ambient.row.upToC} °C`, ca, "(no unit)"),
        lookedUp("Conductors together", GROUPING_NEC, `up to ${group.row.upTo}`, cg, "(no unit)"),
        worked("Ampacity", "table × ambient × adjustment", substituted, ampacityA, "A"),
      ],
      from: [NEC_AMPACITY, AMBIENT_NEC, GROUPING_NEC],
      caution: CAUTION.design,
      notes: [capNote(awg)],
      judged: loadA === undefined ? undefined : atMost(loadA, ampacityA, "A"),
    });
  },
  example: { awg: "12", ambientC: 40, conductors: 3, loadA: 16 },
});
