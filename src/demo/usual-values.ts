// The value of one answer on a good day.
import { intervalOf } from "../domain/acceptance/limits.ts";
import type { CompiledItem } from "../domain/plan/compile.ts";
import type { JobContext } from "../domain/plan/context.ts";
import type { Subject } from "../domain/plan/subjects.ts";
import type { Answering, Names, Value } from "./answering.ts";
import { CHOICES, COUNTS, READINGS } from "./tables/readings.ts";

export function usualValue(
  answering: Answering,
  compiled: CompiledItem,
  subject: Subject,
  names: Names,
): Value {
  const { item } = compiled;
  switch (item.kind) {
    case "confirm":
      return { done: true };
    case "measure":
      return { number: usualReading(compiled, names, answering.next()), unit: item.unit };
    case "tighten":
      return {
        points: Array.from({ length: item.points }, (_, point) => point + 1),
        setting: { number: nominalOf(compiled, names), unit: item.unit },
      };
    case "count":
      return { count: usualCount(item.id, answering.context) };
    case "choose":
      return { choice: answering.choices[item.id] ?? CHOICES[item.id] ?? firstAccepted(item) };
    case "identify":
      return item.what === "serial"
        ? { text: subject.unit?.serial ?? "" }
        : { text: answering.levelOf(subject.unit, item.id) };
    case "set":
      return { positions: positionsOf(compiled, names) };
    case "photo":
      return {};
    case "sign":
      return { name: item.whose === "customer" ? answering.customerName : answering.installerName };
  }
}

function firstAccepted(item: {
  options: string[];
  limit?: { oneOf: (string | number)[] };
}): string {
  return String(item.limit?.oneOf[0] ?? item.options[0]);
}

function usualCount(itemId: string, { units }: JobContext): number {
  const count = COUNTS[itemId];
  if (count !== undefined) return count;
  const packs = units.filter(({ kind }) => kind === "battery-pack");
  return itemId === "modules_found" ? packs.length : units.length;
}

function positionsOf({ positions = [] }: CompiledItem, names: Names): Record<string, string> {
  return Object.fromEntries(
    positions.map(({ switch: name, position }) => {
      if (typeof position === "string") return [name, position];
      const result = position.evaluate(names);
      if (!result.ok) throw new Error(`${position.text}: ${result.problem}`);
      return [name, String(result.value)];
    }),
  );
}

function limitOf({ item, limit }: CompiledItem, names: Names) {
  if (!limit || limit.kind === "expression" || limit.kind === "one-of") return {};
  const bounds = intervalOf(limit, () => names);
  if (!bounds.ok) throw new Error(`${item.id}: ${bounds.problem}`);
  return bounds.interval;
}

const nominalOf = (compiled: CompiledItem, names: Names): number => {
  const { nominal } = limitOf(compiled, names) as { nominal?: { value: number } };
  if (!nominal) throw new Error(`${compiled.item.id} is tightened to no stated torque`);
  return nominal.value;
};

/** As typed off the display; `chance` in [0, 1) moves it within its spread. */
function usualReading(compiled: CompiledItem, names: Names, chance: number): string {
  const interval = limitOf(compiled, names) as { low?: number; high?: number };
  const typical = READINGS[compiled.item.id];
  const swing = chance * 2 - 1;
  if (typical) {
    const base = typical.from ? (interval[typical.from] ?? 0) : 0;
    return (base + typical.around + swing * typical.spread).toFixed(typical.decimals);
  }
  const { low, high } = interval;
  if (low === undefined || high === undefined) {
    throw new Error(`no usual reading of ${compiled.item.id} is known`);
  }
  return ((low + high) / 2 + (swing * (high - low)) / 8).toFixed(1);
}
