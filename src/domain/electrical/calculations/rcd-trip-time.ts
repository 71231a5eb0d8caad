// Trip time of an RCD at 1, 2 or 5 times its rated residual current; a selective type that
// trips too fast fails as well. IEC 61008-1 / 61009-1 Table 1; BS 7671 643.8.
import { z } from "zod";
import { type Answer, defineCalculation, refuse } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost, within } from "../judgement.ts";
import { filled } from "../number-text.ts";
import { RCD_TYPES, rcdTripRow } from "../residual-current.ts";
import {
  ADDITIONAL_PROTECTION_TEST,
  RCD_TRIP_TIMES,
  type RcdTripRow,
  SELECTIVE_ABOVE,
} from "../tables/rcd-trip-limits.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  type: choiceField(RCD_TYPES, "general, or S for selective (delayed)"),
  residualCurrentMa: numberField("residualCurrentMa", "Rated residual current IΔn"),
  multiple: z
    .union([z.literal(1), z.literal(2), z.literal(5)])
    .describe("Test current as a multiple of the rated residual current: 1, 2 or 5"),
  measuredMs: numberField("tripTimeMs", "Trip time as read").optional(),
});

function judged(row: RcdTripRow, measuredMs: number | undefined) {
  if (measuredMs === undefined) return undefined;
  if (row.minMs === null) return atMost(measuredMs, row.maxMs, "ms");
  return within(measuredMs, row.minMs, row.maxMs, "ms");
}

function speedNotes(row: RcdTripRow, measuredMs: number | undefined): string[] {
  if (measuredMs === undefined) return [];
  if (row.minMs !== null && measuredMs < row.minMs) {
    return ["Too fast for a selective type: it would trip together with the device downstream."];
  }
  return measuredMs > row.maxMs ? ["Too slow: replace the device or find what holds it up."] : [];
}

function timesFor(row: RcdTripRow, residualCurrentMa: number, measuredMs?: number): Answer {
  const rowName = `type ${row.type}, ${row.multiple} × IΔn`;
  const testMa = row.multiple * residualCurrentMa;
  const substituted = filled`${row.multiple} × ${residualCurrentMa}`;
  const current = worked("Test current", "m × IΔn", substituted, testMa, "mA");
  const longest = lookedUp("Longest trip time", RCD_TRIP_TIMES, rowName, row.maxMs, "ms");
  const shortest = lookedUp("Shortest", RCD_TRIP_TIMES, rowName, row.minMs ?? 0, "ms");
  return answer({
    steps: row.minMs === null ? [current, longest] : [current, shortest, longest],
    from: [RCD_TRIP_TIMES, ...(row.type === "general" ? [ADDITIONAL_PROTECTION_TEST] : [])],
    caution: CAUTION.liveTest,
    notes: speedNotes(row, measuredMs),
    judged: judged(row, measuredMs),
  });
}

export const rcdTripTime = defineCalculation({
  name: "rcd-trip-time",
  title: "Trip time of a residual current device",
  input,
  compute({ type, residualCurrentMa, multiple, measuredMs }) {
    if (type === "S" && residualCurrentMa <= SELECTIVE_ABOVE.residualCurrentMa) {
      const problem =
        `A selective type is made above ${SELECTIVE_ABOVE.residualCurrentMa} mA ` +
        `(${SELECTIVE_ABOVE.clause}, recalled); check the type and IΔn on the device.`;
      return refuse("not-applicable", problem);
    }
    const found = rcdTripRow(type, multiple);
    return found.ok ? timesFor(found.row, residualCurrentMa, measuredMs) : found;
  },
  example: { type: "general", residualCurrentMa: 30, multiple: 1, measuredMs: 24.6 },
});
