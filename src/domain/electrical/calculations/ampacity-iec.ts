// What a copper cable carries by reference method C, derated for warm air and for cables
// bunched with it: IEC 60364-5-52 Tables B.52.2 to B.52.4, B.52.14, B.52.17.
import { z } from "zod";
import { ambientRow, ampacityRow, CABLE_INSULATIONS, groupingRow } from "../ampacity.ts";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { AMBIENT_IEC, GROUPING_IEC } from "../tables/derating-factors.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  insulation: choiceField(CABLE_INSULATIONS, "Insulation: PVC 70 °C or XLPE 90 °C"),
  loadedConductors: z
    .union([z.literal(2), z.literal(3)])
    .describe("Conductors that carry current: 2 single-phase, 3 three-phase"),
  areaMm2: numberField("areaMm2", "Conductor area, copper"),
  ambientC: numberField("temperatureC", "Air temperature around the cable").default(30),
  circuits: numberField("circuitCount", "Circuits bunched together, this one included").default(1),
  designCurrentA: numberField("currentA", "Design current Ib of the circuit").optional(),
});

export const ampacityIec = defineCalculation({
  name: "ampacity-iec",
  title: "Current-carrying capacity of a cable (IEC)",
  input,
  compute({ insulation, loadedConductors, areaMm2, ambientC, circuits, designCurrentA }) {
    const base = ampacityRow(insulation, loadedConductors, areaMm2);
    if (!base.ok) return base;
    const air = AMBIENT_IEC[insulation];
    const ambient = ambientRow(air, ambientC);
    if (!ambient.ok) return ambient;
    const group = groupingRow("IEC", circuits);
    if (!group.ok) return group;
    const tabulatedA = base.row.ampacityA;
    const [ca, cg] = [ambient.row.factor, group.row.factor];
    const capacityA = tabulatedA * ca * cg;
    const substituted = filled`${tabulatedA} × ${ca} × ${cg}`;
    return answer({
      steps: [
        lookedUp("Tabulated It", base.table, `${areaMm2} mm²`, tabulatedA, "A"),
        lookedUp("Ambient factor Ca", air, `up to ${ambient.row.upToC} °C`, ca, "(no unit)"),
        lookedUp("Grouping factor Cg", GROUPING_IEC, `up to ${group.row.upTo}`, cg, "(no unit)"),
        worked("Capacity Iz", "It × Ca × Cg", substituted, capacityA, "A"),
      ],
      from: [base.table, air, GROUPING_IEC],
      caution: CAUTION.design,
      notes: [
        "Clipped direct to a surface (method C); cables in insulation, conduit or ground " +
          "carry less.",
        "Between two rows of a factor table the more severe row is used.",
      ],
      judged: designCurrentA === undefined ? undefined : atMost(designCurrentA, capacityA, "A"),
    });
  },
  example: {
    insulation: "pvc",
    loadedConductors: 2,
    areaMm2: 6,
    ambientC: 35,
    circuits: 2,
    designCurrentA: 32,
  },
});
