// Requirement: an author sees for every item an answer that would be accepted, where one can be
// worked out from the limit; nothing is taken as accepted that the rules do not accept.
import { accepts, type Interval } from "../acceptance/interval.ts";
import { intervalOf, type Names } from "../acceptance/limits.ts";
import { significant } from "../acceptance/significant.ts";
import type { CompiledItem } from "./compile.ts";
import type { JobContext } from "./context.ts";
import type { Subject } from "./subjects.ts";

export type RawValue = Record<string, unknown>;

/** What the values to try are taken from. */
export interface SampleFacts {
  subject: Subject;
  context: Pick<JobContext, "units">;
  names: Names;
}

/** Values that may be accepted, the likeliest first; few where the limit says which. */
export function valuesToTry(compiled: CompiledItem, facts: SampleFacts): RawValue[] {
  const { item } = compiled;
  switch (item.kind) {
    case "confirm":
      return [{ done: true }];
    case "measure":
      return numbersToTry(compiled, facts).map((number) => ({ number, unit: item.unit }));
    case "tighten": {
      const points = Array.from({ length: item.points }, (_, index) => index + 1);
      return numbersToTry(compiled, facts).map((number) => ({
        ...{ points, setting: { number, unit: item.unit } },
      }));
    }
    case "count":
      return [...numbersToTry(compiled, facts).map(Math.round), ...COUNTS]
        .filter((count) => count >= 0)
        .map((count) => ({ count }));
    case "choose":
      return item.options.map((choice) => ({ choice }));
    case "identify":
      return textsToTry(compiled, facts).map((text) => ({ text }));
    case "set":
      return [{ positions: positionsOf(compiled, facts.names) }];
    case "photo":
      return [{}];
    case "sign":
      return [{ name: "A. Sample" }];
  }
}

const COUNTS = Array.from({ length: 101 }, (_, count) => count);
const LEVELS = ["1.0.0", "1.0.1", "1.1.0", "2.0.0"];
const GUESSES = [
  ...[1, 0, 10, 100, 1000, 0.1, 0.01, 0.001, 2, 5, 20, 50, 200, 500],
  ...[230, 400, -1, -10, -0.1],
];

function textsToTry({ item, limit }: CompiledItem, { subject, context }: SampleFacts): string[] {
  if (item.kind === "identify" && item.what === "serial") {
    return subject.unit ? [subject.unit.serial] : context.units.map(({ serial }) => serial);
  }
  return limit?.kind === "one-of" ? limit.values.map(String) : LEVELS;
}

function numbersToTry({ limit }: CompiledItem, { subject, names }: SampleFacts): number[] {
  if (!limit || limit.kind === "one-of") return GUESSES;
  if (limit.kind === "expression") {
    const written = [...limit.expression.text.matchAll(/\d+(?:\.\d+)?/g)].map(Number);
    const figures = Object.values(subject.unit?.attributes ?? {}).filter(
      (figure) => typeof figure === "number",
    );
    const around = [...written, ...figures].flatMap((one) =>
      [one, one * 0.9, one * 1.1].map(significant),
    );
    return [...around, ...GUESSES];
  }
  const bounds = intervalOf(limit, names);
  return bounds.ok ? [insideOf(bounds.interval)] : [];
}

/** The nominal value, the middle, or a value well inside the only end. */
function insideOf(interval: Interval): number {
  const { low, high, nominal } = interval;
  const exact = nominal?.value ?? middle(low, high);
  const plain = Number(exact.toPrecision(4));
  return accepts(interval, plain) ? plain : exact;
}

function middle(low: number | undefined, high: number | undefined): number {
  if (low !== undefined && high !== undefined) return (low + high) / 2;
  if (low !== undefined) return low > 0 ? low * 1.5 : low + 1;
  return high === undefined ? 1 : high > 0 ? high / 2 : high - 1;
}

function positionsOf({ positions = [] }: CompiledItem, names: Names): Record<string, string> {
  return Object.fromEntries(
    positions.map(({ switch: name, position }) => {
      if (typeof position === "string") return [name, position];
      const result = position.evaluate(names());
      return [name, result.ok ? String(result.value) : ""];
    }),
  );
}
