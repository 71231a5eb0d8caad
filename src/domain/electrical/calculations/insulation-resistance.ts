// Test voltage and least insulation resistance of a circuit: IEC 60364-6 Table 6.1 and
// BS 7671 Table 64; surge protection that cannot be disconnected: IEC 60364-6 6.4.3.3.
import { z } from "zod";
import { defineCalculation, refuse } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { CURRENT_KINDS } from "../disconnection-time.ts";
import { choiceField, numberField } from "../fields.ts";
import {
  INSULATION_CIRCUITS,
  INSULATION_STANDARDS,
  insulationRow,
  insulationTable,
} from "../insulation.ts";
import { atLeast } from "../judgement.ts";
import { EXTRA_LOW_VOLTAGE, SURGE_PROTECTION_TEST } from "../tables/insulation-minima.ts";
import { answer, lookedUp } from "../working.ts";

const input = z.strictObject({
  standard: choiceField(INSULATION_STANDARDS, "Whose table to cite").default("IEC"),
  circuit: choiceField(INSULATION_CIRCUITS, "selv-pelv, or ordinary (which includes FELV)"),
  nominalV: numberField("voltageV", "Nominal voltage of the circuit"),
  current: choiceField(CURRENT_KINDS, "Alternating or direct current").default("ac"),
  surgeProtectionFitted: z
    .boolean()
    .describe("True when surge protection stays connected because it cannot be removed")
    .default(false),
  measuredMohm: numberField(
    "insulationMohm",
    "Insulation resistance as read; the end of the range when the display shows more than it",
  ).optional(),
});

export const insulationResistance = defineCalculation({
  name: "insulation-resistance",
  title: "Insulation resistance of a circuit",
  input,
  compute({ standard, circuit, nominalV, current, surgeProtectionFitted, measuredMohm }) {
    const found = insulationRow(circuit, nominalV, current);
    if (!found.ok) return found;
    const { aboveV, upToV, minMohm, testV } = found.row;
    const table = insulationTable(standard);
    if (surgeProtectionFitted && nominalV > SURGE_PROTECTION_TEST.upToV) {
      const problem =
        "The lower test voltage for fitted surge protection is for circuits up to " +
        `${SURGE_PROTECTION_TEST.upToV} V; at ${nominalV} V disconnect it for the test.`;
      return refuse("not-applicable", problem);
    }
    const rowName =
      circuit === "selv-pelv" ? "SELV and PELV" : `above ${aboveV} V up to ${upToV} V`;
    const voltage = surgeProtectionFitted
      ? lookedUp(
          "Test voltage",
          SURGE_PROTECTION_TEST,
          "surge protection fitted",
          SURGE_PROTECTION_TEST.testV,
          "V DC",
        )
      : lookedUp("Test voltage", table, rowName, testV, "V DC");
    return answer({
      steps: [voltage, lookedUp("Least insulation resistance", table, rowName, minMohm, "MΩ")],
      from: [
        table,
        ...(surgeProtectionFitted ? [SURGE_PROTECTION_TEST] : []),
        ...(circuit === "selv-pelv" ? [EXTRA_LOW_VOLTAGE] : []),
      ],
      caution: CAUTION.insulationTest,
      judged: measuredMohm === undefined ? undefined : atLeast(measuredMohm, minMohm, "MΩ"),
    });
  },
  example: {
    standard: "IEC",
    circuit: "ordinary",
    nominalV: 230,
    current: "ac",
    surgeProtectionFitted: false,
    measuredMohm: 240,
  },
});
