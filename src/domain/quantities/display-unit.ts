// Requirement: units are metric or US customary per firm. Which unit each system uses for what
// is common practice on instruments and instruction sheets, no source.

import { exactFromNumber } from "./decimal-text.ts";
import { nearestDouble } from "./nearest-double.ts";
import { exactFromSi, type Quantity, type Unit } from "./units.ts";

export const UNIT_SYSTEMS = ["metric", "us"] as const;
export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

const METRIC: Readonly<Record<Quantity, Unit>> = {
  torque: "N·m",
  length: "mm",
  temperature: "°C",
  voltage: "V",
  current: "A",
  resistance: "Ω",
  duration: "s",
  pressure: "kPa",
  power: "kW",
  energy: "kWh",
  charge: "Ah",
  mass: "kg",
  area: "mm²",
  ratio: "%",
  count: "count",
  frequency: "Hz",
  irradiance: "W/m²",
};

/** Terminal torques are marked in lbf·in; conductor areas stay metric (wire gauge is no unit). */
const US: Readonly<Record<Quantity, Unit>> = {
  ...METRIC,
  torque: "lbf·in",
  length: "in",
  temperature: "°F",
  pressure: "psi",
  mass: "lb",
};

/** The unit of about the same size in the other system; units of both systems are absent. */
const COUNTERPARTS: Readonly<Record<UnitSystem, Readonly<Partial<Record<Unit, Unit>>>>> = {
  us: { N·m: "lbf·in", mm: "in", m: "ft", "°C": "°F", kPa: "psi", kg: "lb" },
  metric: { lbf·in: "N·m", lbf·ft: "N·m", in: "mm", ft: "m", "°F": "°C", psi: "kPa", lb: "kg" },
};

/** Units of one quantity from small to large, for picking a readable one. */
const LADDERS: readonly (readonly Unit[])[] = [
  ["mΩ", "Ω", "kΩ", "MΩ"],
  ["mV", "V"],
  ["mA", "A", "kA"],
  ["ms", "s", "min"],
  ["W", "kW"],
  ["Wh", "kWh"],
  ["mm", "m"],
  ["in", "ft"],
];

/** The unit a firm on this system uses for a quantity. */
export function displayUnit(quantity: Quantity, system: UnitSystem): Unit {
  return system === "us" ? US[quantity] : METRIC[quantity];
}

/** The unit in which a firm on this system shows a value given in `unit`. */
export function counterpart(unit: Unit, system: UnitSystem): Unit {
  return COUNTERPARTS[system][unit] ?? unit;
}

/**
 * The unit in which a stored SI value reads best: the largest that keeps it at 1 or above, so
 * 5,000,000 Ω reads in MΩ and 0.00035 Ω in mΩ; zero reads in the firm's usual unit.
 */
export function readableUnit(valueSi: number, quantity: Quantity, system: UnitSystem): Unit {
  const usual = displayUnit(quantity, system);
  const ladder = LADDERS.find((rungs) => rungs.includes(usual));
  if (!ladder || valueSi === 0) return usual;
  const exact = exactFromNumber(valueSi);
  const large = ladder.filter((unit) => Math.abs(nearestDouble(exactFromSi(exact, unit))) >= 1);
  return large.at(-1) ?? ladder[0] ?? usual;
}
