// Equipment must see nearly the supply's voltage: IEC 60364-5-52 Annex G and Table G.52.1,
// BS 7671 Table 4D1B, NEC Chapter 9 Table 8 and the K method of its handbooks.
import { outside } from "./bounds.ts";
import { type Figure, figure } from "./calculation.ts";
import { conductorResistanceOhm, necOhmPerKft } from "./conductor-resistance.ts";
import { choose, exactRow } from "./look-up.ts";
import { NEC_CONDUCTORS, NEC_GAUGES } from "./tables/conductors-nec.ts";
import {
  ANNEX_G,
  DROP_LIMITS,
  type LoadUse,
  MILLIVOLTS_BS,
  NEC_K_METHOD,
  type Supply,
} from "./tables/voltage-drop-data.ts";

export const PHASES = ["single-phase", "three-phase"] as const;
export const MATERIALS = ["copper", "aluminium"] as const;

export interface AnnexGRun {
  areaMm2: number;
  lengthM: number;
  currentA: number;
  powerFactor: number;
  phases?: string;
  material?: string;
  reactanceOhmPerM?: number;
}

/** Sine of the phase angle for a lagging or leading power factor. */
export function sinPhi(powerFactor: number): number {
  return Math.sqrt(Math.max(0, 1 - powerFactor ** 2));
}

/**
 * Voltage drop of an AC run, V: u = b·(ρ1·L/S·cosφ + λ·L·sinφ)·I.
 *
 * In a three-phase run the drop is from line to neutral. The resistivity is for the
 * conductor in normal service. Source: IEC 60364-5-52 Annex G.
 */
export function annexGDropV(run: AnnexGRun): Figure {
  const { areaMm2, lengthM, currentA, powerFactor } = run;
  const refusal = outside({ areaMm2, lengthM, currentA, powerFactor });
  if (refusal) return refusal;
  const phases = choose("kind of circuit", run.phases ?? "single-phase", PHASES);
  if (!phases.ok) return phases;
  const material = choose("conductor material", run.material ?? "copper", MATERIALS);
  if (!material.ok) return material;
  const reactance = (run.reactanceOhmPerM ?? ANNEX_G.reactanceOhmPerM) * lengthM;
  const resistance = (ANNEX_G.resistivity[material.word] * lengthM) / areaMm2;
  const perPath = resistance * powerFactor + reactance * sinPhi(powerFactor);
  return figure(ANNEX_G.pathFactor[phases.word] * perPath * currentA);
}

/** Largest voltage drop in percent of the nominal voltage, for a run of that length. */
export function dropLimitPercent(supply: Supply, use: LoadUse, lengthM: number): number {
  const row = DROP_LIMITS.rows.find((candidate) => {
    return candidate.supply === supply && candidate.use === use;
  });
  const beyond = Math.max(0, lengthM - DROP_LIMITS.freeLengthM) * DROP_LIMITS.percentPerM;
  return (row?.percent as number) + Math.min(beyond, DROP_LIMITS.growthMaxPercent);
}

/** Voltage drop by the tabulated mV/A/m, V (BS 7671 Table 4D1B, single-phase). */
export function millivoltDropV(areaMm2: number, lengthM: number, currentA: number): Figure {
  const refusal = outside({ lengthM, currentA });
  if (refusal) return refusal;
  const found = exactRow(MILLIVOLTS_BS, "areaMm2", areaMm2, "a conductor area in mm² of");
  if (!found.ok) return found;
  return figure((found.row.millivoltPerAmpMetre * currentA * lengthM) / 1000);
}

/** Voltage drop of a two-wire DC run, V: 2·L·R·I, `lengthM` one way. */
export function dcDropV(
  conductorClass: number,
  areaMm2: number,
  lengthM: number,
  currentA: number,
  temperatureC: number = 20,
): Figure {
  const refusal = outside({ currentA });
  if (refusal) return refusal;
  const oneWay = conductorResistanceOhm(conductorClass, areaMm2, lengthM, temperatureC);
  return oneWay.ok ? figure(2 * oneWay.value * currentA) : oneWay;
}

/** Factor from one-way resistance to drop: go and return, or √3 between lines. */
export function necPathFactor(phases: (typeof PHASES)[number]): number {
  return phases === "three-phase" ? Math.sqrt(3) : 2;
}

/** Voltage drop by NEC Chapter 9 Table 8 at 75 °C, V; `lengthFt` one way. */
export function necDropV(
  awg: string,
  form: string,
  lengthFt: number,
  currentA: number,
  phases: string = "single-phase",
): Figure {
  const refusal = outside({ lengthFt, currentA });
  if (refusal) return refusal;
  const kind = choose("kind of circuit", phases, PHASES);
  if (!kind.ok) return kind;
  const perKft = necOhmPerKft(awg, form);
  if (!perKft.ok) return perKft;
  return figure((necPathFactor(kind.word) * perKft.value * lengthFt * currentA) / 1000);
}

/** Voltage drop by the K method, V: 2·K·L·I / circular mils; `lengthFt` one way. */
export function necKDropV(
  awg: string,
  lengthFt: number,
  currentA: number,
  material: string = "copper",
  phases: string = "single-phase",
): Figure {
  const refusal = outside({ lengthFt, currentA });
  if (refusal) return refusal;
  const kind = choose("kind of circuit", phases, PHASES);
  if (!kind.ok) return kind;
  const metal = choose("conductor material", material, MATERIALS);
  if (!metal.ok) return metal;
  const gauge = choose("gauge", awg, NEC_GAUGES);
  if (!gauge.ok) return gauge;
  const found = exactRow(NEC_CONDUCTORS, "awg", gauge.word, "gauge");
  if (!found.ok) return found;
  const k = NEC_K_METHOD.kOhmCircularMilPerFt[metal.word];
  return figure((necPathFactor(kind.word) * k * lengthFt * currentA) / found.row.circularMils);
}
