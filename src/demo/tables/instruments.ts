// What each crew carries. Accuracies are round figures of the kind that data sheets give, of no
// real instrument. One torque wrench is past its calibration: see LAPSED.
import type { CrewKey } from "./people.ts";

type Accuracy = Partial<
  Record<"percentOfReading" | "percentOfRange" | "digits" | "percentOfSetting", number>
>;

export interface InstrumentKind {
  instrumentClass: string;
  letters: string;
  name: string;
  accuracy: Accuracy;
  resolution?: { step: number; unit: string };
  rangeMax?: { value: number; unit: string };
  intervalCycles?: number;
}

export const KINDS: readonly InstrumentKind[] = [
  {
    instrumentClass: "multimeter",
    letters: "MM",
    name: "Multimeter",
    accuracy: { percentOfReading: 0.4, digits: 2 },
    resolution: { step: 0.1, unit: "V" },
    rangeMax: { value: 600, unit: "V" },
  },
  {
    instrumentClass: "insulation-tester",
    letters: "IT",
    name: "Insulation tester",
    accuracy: { percentOfReading: 3, digits: 2 },
    resolution: { step: 0.01, unit: "MΩ" },
    rangeMax: { value: 999, unit: "MΩ" },
  },
  {
    instrumentClass: "loop-tester",
    letters: "LT",
    name: "Loop tester",
    accuracy: { percentOfReading: 5, digits: 4 },
    resolution: { step: 0.01, unit: "Ω" },
    rangeMax: { value: 2000, unit: "Ω" },
  },
  {
    instrumentClass: "rcd-tester",
    letters: "RT",
    name: "RCD tester",
    accuracy: { percentOfReading: 1, digits: 1 },
    resolution: { step: 1, unit: "ms" },
    rangeMax: { value: 2000, unit: "ms" },
  },
  {
    instrumentClass: "low-ohm-meter",
    letters: "LM",
    name: "Low-ohm meter",
    accuracy: { percentOfReading: 2, digits: 2 },
    resolution: { step: 0.01, unit: "Ω" },
    rangeMax: { value: 20, unit: "Ω" },
  },
  {
    instrumentClass: "torque-wrench",
    letters: "TW",
    name: "Torque wrench, 1 to 20 N·m",
    accuracy: { percentOfSetting: 4 },
    intervalCycles: 5000,
  },
  {
    instrumentClass: "thermometer",
    letters: "TH",
    name: "Contact thermometer",
    accuracy: { percentOfReading: 0.5, digits: 5 },
    resolution: { step: 0.1, unit: "°C" },
  },
  {
    instrumentClass: "tape",
    letters: "TP",
    name: "Tape, class II",
    accuracy: { digits: 1 },
    resolution: { step: 1, unit: "mm" },
  },
  {
    instrumentClass: "depth-gauge",
    letters: "DG",
    name: "Depth gauge",
    accuracy: { digits: 1 },
    resolution: { step: 0.1, unit: "mm" },
  },
];

/** Numbers of each crew's set; the spares lie in the depot. */
export const SETS: Readonly<Record<CrewKey, number>> = { heath: 1, harbour: 2, cotentin: 3 };
export const SPARES = ["multimeter", "torque-wrench"] as const;
export const SPARE_SET = 9;

/** The Harbour crew's torque wrench: calibrated a year and so many days ago, and not since. */
export const LAPSED = { instrumentClass: "torque-wrench", set: SETS.harbour, days: 26 } as const;
