// How fast a fault must be cut off: IEC 60364-4-41 Table 41.1 for final circuits, 411.3.2.3
// and 411.3.2.4 for distribution circuits.
import { z } from "zod";
import { defineCalculation, type Refusal } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import {
  CURRENT_KINDS,
  distributionTimeS,
  EARTHING_SYSTEMS,
  finalCircuitRow,
  outsideLowVoltage,
  TABLE_41_1_EDITIONS,
} from "../disconnection-time.ts";
import { choiceField, numberField } from "../fields.ts";
import { atMost } from "../judgement.ts";
import { shown } from "../number-text.ts";
import { DISTRIBUTION_TIMES } from "../tables/disconnection-times.ts";
import type { Citation } from "../tables/reference-table.ts";
import { answer, lookedUp } from "../working.ts";

const input = z.strictObject({
  system: choiceField(EARTHING_SYSTEMS, "Earthing system of the supply"),
  current: choiceField(CURRENT_KINDS, "Alternating or direct current"),
  u0V: numberField("voltageV", "Nominal voltage to earth"),
  circuit: choiceField(["final", "distribution"], "Final circuit, or circuit feeding a board"),
  edition: choiceField(TABLE_41_1_EDITIONS, "Edition of Table 41.1").default("2017-amendment"),
  deviceTimeS: numberField("tripTimeS", "Time the device takes at the fault current").optional(),
});

const NOTES = [
  "Table 41.1 is for final circuits of limited rating (32 A for fixed equipment, recalled); " +
    "others " +
    "take the time of a distribution circuit.",
  "In a TT system cut off by overcurrent devices, with all extraneous parts bonded to the main " +
    "terminal, the TN times may be used (recalled).",
];

type Circuit = z.output<typeof input>;
type Time = { ok: true; table: Citation; rowName: string; maxS: number };

function distributionTime({ system }: Circuit): Time {
  const rowName = `${system}, distribution circuit`;
  return { ok: true, table: DISTRIBUTION_TIMES, rowName, maxS: distributionTimeS(system) };
}

function finalTime(circuit: Circuit): Time | Refusal {
  const found = finalCircuitRow(circuit);
  if (!found.ok) return found;
  const { aboveV, upToV } = found.row;
  const band = `${aboveV} V < U0 ≤ ${upToV} V (U0 = ${shown(circuit.u0V)} V)`;
  const rowName = `${circuit.system} ${circuit.current.toUpperCase()}, ${band}`;
  return { ok: true, table: found.table, rowName, maxS: found.maxS };
}

export const maxDisconnectionTime = defineCalculation({
  name: "max-disconnection-time",
  title: "Longest disconnection time",
  input,
  compute(circuit) {
    const refusal = outsideLowVoltage(circuit.current, circuit.u0V);
    if (refusal) return refusal;
    const time = circuit.circuit === "final" ? finalTime(circuit) : distributionTime(circuit);
    if (!time.ok) return time;
    const { deviceTimeS } = circuit;
    const { table, rowName, maxS } = time;
    return answer({
      steps: [lookedUp("Longest disconnection time", table, rowName, maxS, "s")],
      from: [table],
      caution: CAUTION.design,
      notes: NOTES,
      judged: deviceTimeS === undefined ? undefined : atMost(deviceTimeS, maxS, "s"),
    });
  },
  example: {
    system: "TN",
    current: "ac",
    u0V: 230,
    circuit: "final",
    edition: "2017-amendment",
    deviceTimeS: 0.1,
  },
});
