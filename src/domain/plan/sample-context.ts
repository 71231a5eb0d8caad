// Requirement: whoever writes a plan begins to try it from facts that fit it: a unit of each kind
// it asks for, a figure for each attribute it reads, an instrument of each class it wants. The
// figures are made up; the real ones are the maker's, and the product models hold them.
import { Temporal } from "temporal-polyfill";
import type { CompiledPlan } from "./compile.ts";
import type { InstrumentFacts, JobContext, SiteFacts, UnitFacts } from "./context.ts";
import { instrumentsOf } from "./diff.ts";
import { UNIT_KINDS, type UnitKind } from "./item.ts";
import type { Plan } from "./schema.ts";

export const SAMPLE_SITE: SiteFacts = {
  ...{ supply: "TN-C-S", region: "uk", country: "GB", timeZone: "Europe/London" },
};

const PACKS = 2;
const SURE_DAYS = { before: 30, after: 335 };

export type Attributes = Readonly<Record<string, string | number | boolean>>;

/**
 * Facts of a job that fit a plan.
 * @param startsAt RFC 3339 time at which its work begins
 */
export function sampleContext(
  { plan }: CompiledPlan,
  site: SiteFacts,
  startsAt: string,
): Omit<JobContext, "now"> {
  const attributes = sampleAttributes(plan);
  const kinds = kindsOf(plan);
  const units = kinds.flatMap((kind) =>
    Array.from({ length: kind === "battery-pack" ? PACKS : 1 }, (_, index) => ({ kind, index })),
  );
  return {
    site,
    units: units.map(({ kind, index }, place) => ({
      ...sampleUnit(kind, index + 1),
      ...{ position: place + 1, attributes },
    })),
    instruments: instrumentsOf(plan).map((name) => sampleInstrument(name, site, startsAt)),
    concessions: [],
  };
}

/** A figure for each attribute that the plan reads, of the size that its name lets expect. */
export function sampleAttributes({ attributes }: Plan): Attributes {
  return Object.fromEntries(
    Object.entries(attributes).map(([name, type]) => [
      name,
      type === "flag" ? true : type === "text" ? "Sample" : figureFor(name),
    ]),
  );
}

/** By the unit at the end of the name; the first that fits counts. */
const SIZES: readonly [RegExp, number][] = [
  [/^pv.*V$/, 600],
  [/[dD]ifference.*V$/, 0.4],
  [/V$/, 50],
  [/A$/, 20],
  [/Nm$/, 8],
  [/Mm$/, 100],
  [/C$/, 45],
  [/S$/, 300],
  [/Kwh?$/, 5],
  [/Kg$/, 50],
];

function figureFor(name: string): number {
  const size = SIZES.find(([pattern]) => pattern.test(name))?.[1] ?? 10;
  if (/M(?:in|inimum)(?![a-z])/.test(name)) return (size * 9) / 10;
  return /M(?:ax|aximum)(?![a-z])/.test(name) ? (size * 11) / 10 : size;
}

/** The kinds that the plan asks for by name; packs where it asks for units of any kind. */
function kindsOf(plan: Plan): UnitKind[] {
  const repeats = plan.stages.flatMap(({ items }) =>
    items.flatMap(({ repeat }) => (repeat && "per" in repeat ? [repeat] : [])),
  );
  const perUnit = repeats.flatMap((repeat) => (repeat.per === "unit" ? [repeat.ofKind] : []));
  const named = UNIT_KINDS.filter((kind) => perUnit.includes(kind));
  return named.length === 0 && perUnit.length > 0 ? ["battery-pack"] : named;
}

function sampleUnit(
  kind: UnitKind,
  number: number,
): Pick<UnitFacts, "id" | "serial" | "kind" | "modelCode" | "hardwareRevision"> {
  const name = `${kind}-${number}`;
  const serial = `SAMPLE-${name.toUpperCase()}`;
  return {
    id: name,
    serial,
    kind,
    modelCode: `SAMPLE-${kind.toUpperCase()}`,
    hardwareRevision: "A",
  };
}

function sampleInstrument(name: string, site: SiteFacts, startsAt: string): InstrumentFacts {
  const day = Temporal.Instant.from(startsAt).toZonedDateTimeISO(site.timeZone).toPlainDate();
  const on = day.subtract({ days: SURE_DAYS.before }).toString();
  const due = day.add({ days: SURE_DAYS.after }).toString();
  return {
    ...{ id: `sample-${name}`, reference: `SAMPLE-${name.toUpperCase()}`, class: name },
    accuracy: name.startsWith("torque") ? { percentOfSetting: 0.1 } : { percentOfReading: 0.1 },
    calibrations: [{ on, due, passed: true }],
  };
}
