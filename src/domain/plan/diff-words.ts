// Requirement: a change is told in one plain sentence, with what stood there and what stands there
// now, so that nobody has to read two documents side by side.
import { withUnit } from "../acceptance/interval.ts";
import type { Item } from "./item.ts";
import type { Bound, Limit } from "./limit.ts";
import type { Repeat } from "./repeat.ts";

/** Titles of items by id, as they are called now. */
export type Titles = ReadonlyMap<string, string>;

/** "at least 38 V", "model.ocvMinV to model.ocvMaxV": a limit as written, nothing worked out. */
export function limitWords(limit: Limit | undefined, unit: string): string {
  if (!limit) return "everything";
  if ("expression" in limit) {
    const { expression, words } = limit;
    return words === undefined ? `what meets ${expression}` : `${words} (${expression})`;
  }
  if ("oneOf" in limit) return limit.oneOf.join(" or ");
  if ("count" in limit) return `exactly ${limit.count}`;
  const say = (bound: Bound): string =>
    typeof bound === "number" ? withUnit(bound, unit) : `${bound.cel} ${unit}`.trim();
  if ("nominal" in limit) {
    const { nominal, tolerance } = limit;
    const width =
      "absolute" in tolerance ? withUnit(tolerance.absolute, unit) : `${tolerance.percent} %`;
    return `${say(nominal)} ± ${width}`;
  }
  const { min, above, max, below } = limit;
  const ends = [
    min === undefined ? "" : `at least ${say(min)}`,
    above === undefined ? "" : `more than ${say(above)}`,
    max === undefined ? "" : `at most ${say(max)}`,
    below === undefined ? "" : `less than ${say(below)}`,
  ];
  return ends.filter(Boolean).join(" and ");
}

/** "once for every battery-pack". */
export function repeatWords(repeat: Repeat | undefined): string {
  if (!repeat) return "once";
  if ("times" in repeat) return repeat.times === 1 ? "1 time" : `${repeat.times} times`;
  if (repeat.per === "unit") return `once for every ${repeat.ofKind ?? "unit"}`;
  return `once for each of ${listed(repeat.groups.map(({ title }) => title))}`;
}

/** What a field of an item says, in words. */
export function fieldWords(item: Item, field: string, titles: Titles): string {
  const value = (item as unknown as Record<string, unknown>)[field];
  const unit = "unit" in item ? item.unit : "";
  const items = (ids: readonly string[] = []): string =>
    ids.length === 0 ? "nothing" : listed(ids.map((id) => `"${titles.get(id) ?? id}"`));
  switch (field) {
    case "limit":
      return limitWords(value as Limit | undefined, unit);
    case "repeat":
      return repeatWords(item.repeat);
    case "after":
    case "onFailRepeat":
      return items(value as string[] | undefined);
    case "dwell":
      return dwellWords(item, items);
    case "breakers":
      return breakerWords(item);
    case "evidence":
      return evidenceWords(item);
    case "appliesWhen":
      return item.appliesWhen ?? "always";
    case "instrument":
      return item.instrument?.class ?? "none named";
    case "decisionRule":
      return typeof value === "string" ? value : "the plan's rule";
    case "sequence":
      return item.sequence ?? "block";
    case "supply":
      return item.supply ?? "not said";
    default:
      return plainWords(value);
  }
}

function plainWords(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "string" || typeof value === "number") return String(value);
  if (Array.isArray(value) && value.every((one) => typeof one === "string")) return listed(value);
  return JSON.stringify(value);
}

function dwellWords({ dwell }: Item, items: (ids: string[]) => string): string {
  if (!dwell) return "none";
  const most = dwell.atMostS === undefined ? "" : ` and at most ${dwell.atMostS} s`;
  return `at least ${dwell.atLeastS} s${most} after ${items([dwell.after])}`;
}

function breakerWords({ breakers }: Item): string {
  const states = (named: Readonly<Record<string, string>> = {}): string =>
    listed(Object.entries(named).map(([breaker, state]) => `${breaker} ${state}`));
  const parts = [
    breakers?.with ? `with ${states(breakers.with)}` : "",
    breakers?.leaves ? `leaving ${states(breakers.leaves)}` : "",
  ];
  return parts.filter(Boolean).join(", ") || "not said";
}

function evidenceWords({ evidence }: Item): string {
  const { photos = 0, note } = evidence ?? {};
  const parts = [photos === 1 ? "1 photo" : photos > 1 ? `${photos} photos` : "", note && "a note"];
  return parts.filter(Boolean).join(" and ") || "none";
}

/** "a, b and c". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
