// Requirement: a bound may be a number or computed from the product model, the site, other answers
// and the electrical functions; when it cannot be computed, nothing is accepted and the reason is
// told.
import type { CompiledBound, CompiledLimit } from "../plan/compile.ts";
import type { Interval } from "./interval.ts";
import { significant } from "./significant.ts";

export type Bounds = { ok: true; interval: Interval } | { ok: false; problem: string };
export type Names = () => Record<string, unknown>;

/** The accepted interval of a range, nominal or count limit. */
export function intervalOf(
  limit: Extract<CompiledLimit, { kind: "range" | "nominal" | "count" }>,
  names: Names,
): Bounds {
  if (limit.kind === "count") return closed(limit.count, limit.count);
  if (limit.kind === "nominal") {
    const nominal = numberOf(limit.nominal, names);
    if (!nominal.ok) return nominal;
    const { tolerance } = limit;
    const width =
      "absolute" in tolerance
        ? tolerance.absolute
        : (Math.abs(nominal.value) * tolerance.percent) / 100;
    const words = "absolute" in tolerance ? tolerance.absolute : `${tolerance.percent} %`;
    const interval = {
      low: significant(nominal.value - width),
      high: significant(nominal.value + width),
      lowIncluded: true,
      highIncluded: true,
      nominal: { value: nominal.value, tolerance: words },
    };
    return { ok: true, interval };
  }
  const low = optionalNumber(limit.min ?? limit.above, names);
  const high = optionalNumber(limit.max ?? limit.below, names);
  if (!low.ok) return low;
  if (!high.ok) return high;
  const interval = {
    low: low.value,
    lowIncluded: limit.above === undefined,
    high: high.value,
    highIncluded: limit.below === undefined,
  };
  return { ok: true, interval };
}

const closed = (low: number, high: number): Bounds => ({
  ok: true,
  interval: { low, high, lowIncluded: true, highIncluded: true },
});

type NumberValue = { ok: true; value: number } | { ok: false; problem: string };

function optionalNumber(
  bound: CompiledBound | undefined,
  names: Names,
): { ok: true; value: number | undefined } | { ok: false; problem: string } {
  return bound === undefined ? { ok: true, value: undefined } : numberOf(bound, names);
}

function numberOf(bound: CompiledBound, names: Names): NumberValue {
  if (typeof bound === "number") return { ok: true, value: bound };
  const result = bound.evaluate(names());
  if (!result.ok) return result;
  if (typeof result.value !== "number" || !Number.isFinite(result.value)) {
    return { ok: false, problem: `"${bound.text}" gives no number here` };
  }
  return { ok: true, value: significant(result.value) };
}
