// Requirement: quantities carry units, and every unit has one exact relation to SI.
// Sources: SI Brochure (9th ed.) tables 2–4 and 8; NIST SP 811 (2008) Appendix B for the pound,
// the foot, the inch, the pound-force and standard gravity, all exact by definition.
//
// Temperature is kept in °C, not K: the degree Celsius is itself an SI unit (SI Brochure
// table 4), it is what plans and instruments say, and a stored 25 °C stays readable as 25.

import { add, divide, multiply, negate, type Rational, rational } from "./rational.ts";

export const QUANTITIES = [
  "torque",
  "length",
  "temperature",
  "voltage",
  "current",
  "resistance",
  "duration",
  "pressure",
  "power",
  "energy",
  "charge",
  "mass",
  "area",
  "ratio",
  "count",
  "frequency",
  "irradiance",
] as const;

/** What is measured. Temperature differences use temperature units and convertDifference. */
export type Quantity = (typeof QUANTITIES)[number];

interface UnitDefinition {
  readonly quantity: Quantity;
  /** SI value = typed value × factor + offset. */
  readonly factor: Rational;
  readonly offset: Rational;
}

const ONE = rational(1n);
const ZERO = rational(0n);
const THOUSAND = rational(1000n);
const THOUSANDTH = rational(1n, 1000n);
const POUND_KG = rational(45359237n, 100000000n);
const STANDARD_GRAVITY = rational(980665n, 100000n);
const INCH_M = rational(254n, 10000n);
const FOOT_M = rational(3048n, 10000n);
const POUND_FORCE_N = multiply(POUND_KG, STANDARD_GRAVITY);
const PSI_PA = divide(POUND_FORCE_N, multiply(INCH_M, INCH_M));
const ICE_POINT_K = rational(27315n, 100n);
const FAHRENHEIT_STEP = rational(5n, 9n);
const HOUR_S = rational(3600n);

function unit<Q extends Quantity>(quantity: Q, factor: Rational, offset: Rational = ZERO) {
  return { quantity, factor, offset } satisfies UnitDefinition;
}

/** Every unit by its canonical symbol. Ω is U+03A9, · is U+00B7, ° is U+00B0, ² is U+00B2. */
export const UNITS = {
  N·m: unit("torque", ONE),
  lbf·ft: unit("torque", multiply(POUND_FORCE_N, FOOT_M)),
  lbf·in: unit("torque", multiply(POUND_FORCE_N, INCH_M)),
  mm: unit("length", THOUSANDTH),
  m: unit("length", ONE),
  in: unit("length", INCH_M),
  ft: unit("length", FOOT_M),
  "°C": unit("temperature", ONE),
  "°F": unit("temperature", FAHRENHEIT_STEP, multiply(rational(-32n), FAHRENHEIT_STEP)),
  K: unit("temperature", ONE, negate(ICE_POINT_K)),
  V: unit("voltage", ONE),
  mV: unit("voltage", THOUSANDTH),
  A: unit("current", ONE),
  mA: unit("current", THOUSANDTH),
  kA: unit("current", THOUSAND),
  Ω: unit("resistance", ONE),
  mΩ: unit("resistance", THOUSANDTH),
  kΩ: unit("resistance", THOUSAND),
  MΩ: unit("resistance", rational(1000000n)),
  ms: unit("duration", THOUSANDTH),
  s: unit("duration", ONE),
  min: unit("duration", rational(60n)),
  kPa: unit("pressure", THOUSAND),
  psi: unit("pressure", PSI_PA),
  W: unit("power", ONE),
  kW: unit("power", THOUSAND),
  Wh: unit("energy", HOUR_S),
  kWh: unit("energy", multiply(THOUSAND, HOUR_S)),
  Ah: unit("charge", HOUR_S),
  kg: unit("mass", ONE),
  lb: unit("mass", POUND_KG),
  "mm²": unit("area", rational(1n, 1000000n)),
  "%": unit("ratio", rational(1n, 100n)),
  count: unit("count", ONE),
  Hz: unit("frequency", ONE),
  "W/m²": unit("irradiance", ONE),
} as const;

/** A canonical unit symbol. */
export type Unit = keyof typeof UNITS;

export const UNIT_SYMBOLS = Object.keys(UNITS) as Unit[];

/** Whether a text is a canonical symbol, exactly. Use unitFromText for what people type. */
export function isUnit(text: string): text is Unit {
  return Object.hasOwn(UNITS, text);
}

/** What a unit measures. */
export function quantityOf(symbol: Unit): Quantity {
  return UNITS[symbol].quantity;
}

/** The exact SI value (N·m, m, °C, V, A, Ω, s, Pa, W, J, C, kg, m², 1, Hz, W/m²). */
export function exactToSi(value: Rational, symbol: Unit): Rational {
  return add(multiply(value, UNITS[symbol].factor), UNITS[symbol].offset);
}

/** The exact value in a unit of an exact SI value. */
export function exactFromSi(valueSi: Rational, symbol: Unit): Rational {
  return divide(add(valueSi, negate(UNITS[symbol].offset)), UNITS[symbol].factor);
}
