// Requirement: what a firm reads off a battery's passport is kept under the names of Regulation
// (EU) 2023/1542, Annex XIII (point 1: of the model, public; point 4: of the single battery) and
// Annex VI Part A, to which its point 1(a) refers. Names and points from memory; rated energy and
// the bounds are common practice, no source.

export interface PassportField {
  /** Where the regulation names it. */
  readonly point: string;
  /** Of a number; absent where the field is a text. */
  readonly unit?: string;
  readonly least?: number;
  readonly most?: number;
}

const text = (point: string): PassportField => ({ point });
const amount = (point: string, unit: string, most: number, least = 0): PassportField => ({
  ...{ point, unit, least, most },
});

export const PASSPORT_FIELDS = {
  manufacturer: text("XIII 1(a), VI A 1"),
  placeOfManufacture: text("XIII 1(a), VI A 3"),
  manufacturedOn: text("XIII 1(a), VI A 4"),
  weight: amount("XIII 1(a), VI A 5", "kg", 100_000),
  chemistry: text("XIII 1(b)"),
  hazardousSubstances: text("XIII 1(b)"),
  criticalRawMaterials: text("XIII 1(b)"),
  carbonFootprint: amount("XIII 1(c)", "kg CO2e/kWh", 10_000),
  recycledContent: text("XIII 1(e)"),
  renewableContent: amount("XIII 1(f)", "%", 100),
  ratedCapacity: amount("XIII 1(g)", "Ah", 1_000_000),
  ratedEnergy: amount("–", "kWh", 1_000_000),
  minimalVoltage: amount("XIII 1(h)", "V", 10_000),
  nominalVoltage: amount("XIII 1(h)", "V", 10_000),
  maximumVoltage: amount("XIII 1(h)", "V", 10_000),
  powerCapability: amount("XIII 1(i)", "W", 100_000_000),
  expectedCycles: amount("XIII 1(j)", "cycles", 1_000_000),
  coldestStorage: amount("XIII 1(l)", "°C", 200, -100),
  hottestStorage: amount("XIII 1(l)", "°C", 200, -100),
  warrantyPeriod: amount("XIII 1(m)", "years", 100),
  roundTripEfficiency: amount("XIII 1(n)", "%", 100),
  internalResistance: amount("XIII 1(o)", "mΩ", 1_000_000),
  cycleTestRate: amount("XIII 1(p)", "C", 100),
  stateOfHealth: amount("XIII 4(b)", "%", 110),
  status: text("XIII 4(c)"),
  cyclesDone: amount("XIII 4(d)", "cycles", 1_000_000),
  negativeEvents: text("XIII 4(d)"),
} as const satisfies Readonly<Record<string, PassportField>>;

export type PassportFieldName = keyof typeof PASSPORT_FIELDS;
export const PASSPORT_FIELD_NAMES = Object.keys(PASSPORT_FIELDS) as PassportFieldName[];

/**
 * What keeps a value from being one of the field; undefined where it is. Amounts are numbers in the
 * field's own unit, both bounds allowed; the rest are texts.
 */
export function passportValueProblem(
  name: PassportFieldName,
  value: number | string,
): string | undefined {
  const { unit, least, most }: PassportField = PASSPORT_FIELDS[name];
  if (unit === undefined) return typeof value === "string" ? undefined : "must be a text";
  if (typeof value !== "number" || !Number.isFinite(value)) return `must be a number, in ${unit}`;
  if (least !== undefined && value < least) return `must be at least ${least} ${unit}`;
  return most !== undefined && value > most ? `must be at most ${most} ${unit}` : undefined;
}
