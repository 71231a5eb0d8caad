// Refusing a slipped decimal point beats computing with it: each quantity has a range
// outside which it is a typing error, not an installation. Low-voltage limits are
// IEC 60364-1's 1000 V AC and 1500 V DC; the others are common practice, no source.
import { type Refusal, refuse } from "./calculation.ts";

export interface Bound {
  label: string;
  unit: string;
  min: number;
  max: number;
  whole?: boolean;
}

// What stands in a denominator needs a floor as well: a microampere is still a current, but
// a number that underflows would turn a limit into infinity.
const LEAST_POSITIVE = 0.000_001;

const positive = (label: string, unit: string, max: number): Bound => ({
  label,
  unit,
  min: LEAST_POSITIVE,
  max,
});

const between = (label: string, unit: string, min: number, max: number): Bound => ({
  label,
  unit,
  min,
  max,
});

const count = (label: string, min: number, max: number): Bound => ({
  label,
  unit: "pieces",
  min,
  max,
  whole: true,
});

export const BOUNDS = {
  voltageV: positive("voltage", "V", 1500),
  signedVoltageV: between("signed voltage", "V", -1500, 1500),
  voltageDifferenceV: between("voltage difference", "V", 0, 1500),
  currentA: positive("current", "A", 10_000),
  faultCurrentA: positive("fault current", "A", 200_000),
  ratingA: between("device rating", "A", 0.5, 125),
  protectiveRatingA: positive("protective device rating", "A", 6300),
  residualCurrentMa: between("rated residual current", "mA", 6, 30_000),
  leakageCurrentMa: between("leakage current", "mA", 0, 30_000),
  tripTimeMs: between("trip time", "ms", 0, 10_000),
  tripTimeS: between("trip time", "s", 0, 60),
  durationS: positive("duration", "s", 3600),
  resistanceOhm: between("resistance", "Ω", 0, 1_000_000),
  impedanceOhm: positive("impedance", "Ω", 10_000),
  insulationMohm: between("insulation resistance", "MΩ", 0, 1_000_000),
  lengthM: positive("length", "m", 5000),
  lengthFt: positive("length", "ft", 16_500),
  areaMm2: positive("conductor area", "mm²", 1000),
  temperatureC: between("temperature", "°C", -60, 250),
  powerFactor: positive("power factor", "(no unit)", 1),
  cMinFactor: between("voltage factor Cmin", "(no unit)", 0.9, 1),
  irradianceWm2: between("irradiance", "W/m²", 50, 1600),
  percentPerK: between("temperature coefficient", "%/K", -1, 1),
  arrayPowerKwp: positive("array power", "kWp", 100_000),
  capacityAh: positive("capacity", "Ah", 100_000),
  moduleCount: count("number of modules", 1, 200),
  stringCount: count("number of strings", 1, 1000),
  packCount: count("number of packs", 1, 1000),
  cellCount: count("number of cells in series", 1, 1000),
  circuitCount: count("number of grouped circuits", 1, 1000),
  conductorCount: count("number of current-carrying conductors", 1, 1000),
} as const satisfies Record<string, Bound>;

export type Quantity = keyof typeof BOUNDS;

function inside(bound: Bound, value: number): boolean {
  if (!Number.isFinite(value)) return false;
  if (bound.whole && !Number.isInteger(value)) return false;
  return value >= bound.min && value <= bound.max;
}

/** The range of a quantity in words, for descriptions and refusals. */
export function rangeInWords(bound: Bound): string {
  return `${bound.whole ? "a whole number " : ""}from ${bound.min} to ${bound.max} ${bound.unit}`;
}

/**
 * Checks numbers against the range of their quantity.
 *
 * @param values numbers in the unit their key names, e.g. `{ currentA: 32 }`
 * @returns a refusal naming the first number outside its range, else undefined
 */
export function outside(values: Partial<Record<Quantity, number>>): Refusal | undefined {
  for (const key in values) {
    const quantity = key as Quantity;
    const value = values[quantity];
    const bound: Bound = BOUNDS[quantity];
    if (value === undefined || inside(bound, value)) continue;
    const problem =
      `The ${bound.label} ${value} is not ${rangeInWords(bound)}; check the number and its ` +
      "unit.";
    return refuse("bad-input", problem);
  }
  return undefined;
}
