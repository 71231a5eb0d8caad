// The residual current at which an RCD trips under a slowly rising (ramp) test: AC, and
// pulsating DC for type A. IEC 61008-1.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost, within } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { rcdTripCurrentRow, WAVEFORMS } from "../residual-current.ts";
import { RCD_TRIP_CURRENTS } from "../tables/rcd-trip-limits.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  waveform: choiceField(WAVEFORMS, "sinusoidal AC, or pulsating DC (type A devices)"),
  residualCurrentMa: numberField("residualCurrentMa", "Rated residual current IΔn"),
  measuredMa: numberField("leakageCurrentMa", "Current at which it tripped").optional(),
});

export const rcdTripCurrent = defineCalculation({
  name: "rcd-trip-current",
  title: "Trip current of a residual current device",
  input,
  compute({ waveform, residualCurrentMa, measuredMa }) {
    const found = rcdTripCurrentRow(waveform, residualCurrentMa);
    if (!found.ok) return found;
    const { lowest, highest, aboveMa, upToMa } = found.row;
    const rowName = `${waveform}, IΔn above ${aboveMa} up to ${upToMa} mA`;
    const maxMa = highest * residualCurrentMa;
    const minMa = (lowest ?? 0) * residualCurrentMa;
    const source = RCD_TRIP_CURRENTS;
    const upper = [
      lookedUp("Highest multiple", source, rowName, highest, "× IΔn"),
      worked(
        "Highest trip current",
        "m × IΔn",
        filled`${highest} × ${residualCurrentMa}`,
        maxMa,
        "mA",
      ),
    ] as const;
    const lower =
      lowest === null
        ? []
        : [
            worked(
              "Lowest trip current",
              "m × IΔn",
              filled`${lowest} × ${residualCurrentMa}`,
              minMa,
              "mA",
              source,
            ),
          ];
    const judge = (readMa: number) =>
      lowest === null ? atMost(readMa, maxMa, "mA") : within(readMa, minMa, maxMa, "mA");
    return answer({
      steps: [upper[0], ...lower, upper[1]],
      from: [source],
      caution: CAUTION.liveTest,
      judged: measuredMa === undefined ? undefined : judge(measuredMa),
    });
  },
  example: { waveform: "pulsating", residualCurrentMa: 30, measuredMa: 26.2 },
});
