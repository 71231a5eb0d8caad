// Least area of a conductor that must survive a fault: √(I²·t)/k, up to 5 s.
// IEC 60364-5-54 543.1.2; k keyed by material, insulation and role.
import { z } from "zod";
import { defineCalculation } from "../calculation.ts";
import { CAUTION } from "../cautions.ts";
import {
  adiabaticMinMm2,
  CONDUCTOR_ROLES,
  FAULT_INSULATIONS,
  FAULT_MATERIALS,
  nextStandardAreaMm2,
  withstandRow,
} from "../fault-withstand.ts";
import { choiceField, numberField } from "../fields.ts";
import { atLeast } from "../judgement.ts";
import { filled, shown } from "../number-text.ts";
import { ADIABATIC, WITHSTAND_K } from "../tables/fault-withstand.ts";
import { answer, lookedUp, worked } from "../working.ts";

const input = z.strictObject({
  faultCurrentA: numberField("faultCurrentA", "RMS fault current"),
  durationS: numberField("durationS", "Time until the fault is cut off; refused above 5 s"),
  material: choiceField(FAULT_MATERIALS, "Conductor material"),
  insulation: choiceField(FAULT_INSULATIONS, "Insulation or covering"),
  role: choiceField(
    CONDUCTOR_ROLES,
    "core-in-cable: starts at its working temperature; separate: not bunched, starts at 30 °C",
  ),
  areaMm2: numberField("areaMm2", "Area fitted").optional(),
});

function notesFor(areaMm2: number, durationS: number): string[] {
  const standard = nextStandardAreaMm2(areaMm2);
  const size = standard
    ? `Next standard area: ${shown(standard)} mm².`
    : "Above the largest standard area held here (300 mm²).";
  if (durationS >= 0.1) return [size];
  return [size, "Below 0.1 s use the maker's let-through energy I²t instead of current and time."];
}

export const adiabaticArea = defineCalculation({
  name: "adiabatic-area",
  title: "Least conductor area for a fault",
  input,
  compute({ faultCurrentA, durationS, material, insulation, role, areaMm2 }) {
    const least = adiabaticMinMm2(faultCurrentA, durationS, material, insulation, role);
    if (!least.ok) return least;
    const found = withstandRow(material, insulation, role);
    if (!found.ok) return found;
    const { k } = found.row;
    const rowName = `${material}, ${insulation.toUpperCase()}, ${role}`;
    return answer({
      steps: [
        lookedUp("k", WITHSTAND_K, rowName, k, "A·√s/mm²"),
        worked(
          "Least area",
          "√(I² × t) / k",
          filled`√(${faultCurrentA}² × ${durationS}) / ${k}`,
          least.value,
          "mm²",
          ADIABATIC,
        ),
      ],
      from: [ADIABATIC, WITHSTAND_K],
      caution: CAUTION.design,
      notes: notesFor(least.value, durationS),
      judged: areaMm2 === undefined ? undefined : atLeast(areaMm2, least.value, "mm²"),
    });
  },
  example: {
    faultCurrentA: 1000,
    durationS: 0.1,
    material: "copper",
    insulation: "pvc",
    role: "core-in-cable",
    areaMm2: 4,
  },
});
