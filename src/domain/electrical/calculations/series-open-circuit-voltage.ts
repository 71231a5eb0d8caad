// Cells in series add their voltages; a reading short of the sum points at a cell or a
// link. The allowed difference is the maker's figure and has no default.
import { z } from "zod";
import { defineCalculation, refuse } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { numberField } from "../fields.ts";
import { within } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { CIRCUIT_LAW } from "../tables/workshop-rules.ts";
import { answer, worked } from "../working.ts";

const input = z.strictObject({
  cells: numberField("cellCount", "Cells in series"),
  cellV: numberField("voltageV", "Open-circuit voltage of one cell at rest"),
  measuredV: numberField("signedVoltageV", "Pack voltage as read, with its sign").optional(),
  allowedDifferenceV: numberField(
    "voltageDifferenceV",
    "Largest difference the maker allows; required with a reading",
  ).optional(),
});

export const seriesOpenCircuitVoltage = defineCalculation({
  name: "series-open-circuit-voltage",
  title: "Open-circuit voltage of cells in series",
  input,
  compute({ cells, cellV, measuredV, allowedDifferenceV }) {
    if (measuredV !== undefined && allowedDifferenceV === undefined) {
      const problem =
        "A reading is given without the difference the maker allows; fill in " +
        "allowedDifferenceV from the maker's instructions.";
      return refuse("bad-input", problem);
    }
    const expectedV = cells * cellV;
    const substituted = filled`${cells} × ${cellV}`;
    const allowedV = allowedDifferenceV ?? 0;
    const judged =
      measuredV === undefined
        ? undefined
        : within(measuredV, expectedV - allowedV, expectedV + allowedV, "V");
    return answer({
      steps: [worked("Pack voltage", "n × Vcell", substituted, expectedV, "V", CIRCUIT_LAW)],
      from: [CIRCUIT_LAW],
      caution: CAUTION.battery,
      judged,
    });
  },
  example: { cells: 16, cellV: 3.3, measuredV: 52.7, allowedDifferenceV: 0.5 },
});
