// Requirement: a unit is read the way tools and instruction sheets print it, and never guessed
// where two readings are possible. The forms are those seen on torque tools, test instruments
// and instruction sheets (common practice, no source); the symbols are those of the SI Brochure.
//
// "_" stands for an optional separator: a space, point, raised point, hyphen, × or *.

import type { Unit } from "./units.ts";

/** Forms in which upper and lower case mean the same. */
export const SPELLINGS: Readonly<Partial<Record<Unit, readonly string[]>>> = {
  N·m: ["n_m", "newton_metre", "newton_metres", "newton_meter", "newton_meters"],
  lbf·ft: [
    ...["lbf_ft", "ft_lbf", "lb_ft", "ft_lb", "lbs_ft", "ft_lbs", "foot_lb", "foot_lbs"],
    ...["foot_pound", "foot_pounds", "pound_foot", "pound_feet"],
  ],
  lbf·in: [
    ...["lbf_in", "in_lbf", "lb_in", "in_lb", "lbs_in", "in_lbs", "inch_lb", "inch_lbs"],
    ...["inch_pound", "inch_pounds", "pound_inch", "pound_inches"],
  ],
  mm: ["mm", "millimetre", "millimetres", "millimeter", "millimeters"],
  m: ["metre", "metres", "meter", "meters", "mtr", "mtrs"],
  in: ["in", "ins", "inch", "inches", '"', "''"],
  ft: ["ft", "foot", "feet", "'"],
  "°C": ["°c", "deg_c", "degree_c", "degrees_c", "celsius", "degrees_celsius", "centigrade"],
  "°F": ["°f", "deg_f", "degree_f", "degrees_f", "fahrenheit", "degrees_fahrenheit"],
  K: ["kelvin", "kelvins"],
  V: ["v", "volt", "volts", "v~", "v=", "v⎓"],
  mV: ["millivolt", "millivolts"],
  A: ["a", "amp", "amps", "ampere", "amperes"],
  mA: ["milliamp", "milliamps", "milliampere", "milliamperes"],
  kA: ["ka", "kiloamp", "kiloamps", "kiloampere", "kiloamperes"],
  Ω: ["ω", "ohm", "ohms"],
  mΩ: ["milliohm", "milliohms", "milli_ohm", "milli_ohms"],
  kΩ: ["kω", "k_ohm", "k_ohms", "kilohm", "kilohms", "kilo_ohm", "kilo_ohms"],
  MΩ: ["megohm", "megohms", "mega_ohm", "mega_ohms", "meg_ohm", "meg_ohms"],
  ms: ["msec", "msecs", "millisecond", "milliseconds"],
  s: ["sec", "secs", "second", "seconds"],
  min: ["min", "mins", "minute", "minutes"],
  kPa: ["kpa", "kilopascal", "kilopascals"],
  psi: ["psi", "lbf/in²", "lbf/in2", "lb/in²", "lb/in2", "lbs/in²", "lbs/in2"],
  W: ["w", "watt", "watts"],
  kW: ["kw", "kilowatt", "kilowatts"],
  Wh: ["w_h", "w_hr", "watt_hour", "watt_hours"],
  kWh: ["kw_h", "kw_hr", "kilowatt_hour", "kilowatt_hours"],
  Ah: ["a_h", "a_hr", "amp_hour", "amp_hours", "ampere_hour", "ampere_hours"],
  kg: ["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"],
  lb: ["lb", "lbs", "pound", "pounds"],
  "mm²": ["mm²", "mm2", "mm^2", "sq_mm", "square_mm"],
  "%": ["%", "percent", "per_cent", "pct"],
  count: ["count", "off", "pcs", "pieces"],
  Hz: ["hz", "hertz"],
  "W/m²": ["w/m²", "w/m2", "w/m^2"],
};

/** Forms in which the case is part of the meaning. */
export const CASED_SPELLINGS: Readonly<Partial<Record<Unit, readonly string[]>>> = {
  m: ["m"],
  K: ["K"],
  mV: ["mV", "mv"],
  mA: ["mA", "ma"],
  mΩ: ["m_Ω", "m_Ohm", "m_Ohms", "m_OHM", "m_OHMS"],
  MΩ: ["M_Ω", "M_Ohm", "M_Ohms", "M_ohm", "M_ohms"],
  ms: ["ms"],
  s: ["s"],
};

/** What instruments print after a voltage or current; the kind of current is not kept. */
export const CURRENT_KIND = /_?(?:dc|ac|d_c|a_c|rms)$/i;
export const CURRENT_KIND_UNITS: readonly Unit[] = ["V", "mV", "A", "mA", "kA"];

interface Ambiguity {
  /** Units it could mean; one of them is taken when the quantity asked for leaves only one. */
  readonly candidates: readonly Unit[];
  readonly reason: string;
}

const MILLI_OR_MEGA: Ambiguity = {
  candidates: ["mΩ", "MΩ"],
  reason: "could be milliohm or megohm: write mΩ or mOhm for milli, MΩ or MOhm for mega",
};

/** Forms that are refused because they have a second meaning; the case is part of the form. */
export const AMBIGUOUS: Readonly<Record<string, Ambiguity>> = {
  m_ohm: MILLI_OR_MEGA,
  m_ohms: MILLI_OR_MEGA,
  M_OHM: MILLI_OR_MEGA,
  M_OHMS: MILLI_OR_MEGA,
  C: { candidates: ["°C"], reason: "could be degrees, coulombs or a charge rate: write °C" },
  c: { candidates: ["°C"], reason: "could be degrees or a charge rate: write °C" },
  F: { candidates: ["°F"], reason: "could be degrees or farads: write °F" },
  f: { candidates: ["°F"], reason: "could be degrees or feet: write °F or ft" },
  "°": { candidates: [], reason: "does not say which degrees: write °C or °F" },
  M: { candidates: ["m", "MΩ"], reason: "could be metres or a million: write m or MΩ" },
  k: { candidates: ["K", "kΩ"], reason: "could be kelvin or a thousand: write K or kΩ" },
  S: { candidates: ["s"], reason: "is the siemens: write s for seconds" },
  MS: { candidates: ["ms"], reason: "could be milliseconds or megasiemens: write ms" },
  Ms: { candidates: ["ms"], reason: "could be milliseconds or a million seconds: write ms" },
  MV: { candidates: ["mV"], reason: "is a million volts: write mV for millivolts" },
  MA: { candidates: ["mA"], reason: "is a million amperes: write mA for milliamperes" },
  lbf: { candidates: [], reason: "is a force: write lbf·ft or lbf·in for a torque, lb for a mass" },
  cm: { candidates: [], reason: "is not kept by this tool: write the length in mm or m" },
};
