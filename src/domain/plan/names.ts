// Requirement: an expression may read the site, the number of units of each kind, the unit and its
// product model where the item is asked per unit, and other items' answers where it is clear which
// one is meant: asked once, or of the same subjects. All answers to a repeated item are read
// together as readings.
import type { ExpressionType } from "./expression.ts";
import type { ResolveName, ValueType } from "./expression-names.ts";
import type { Item, UnitKind } from "./item.ts";
import type { Plan } from "./schema.ts";
import { sameSubjects } from "./subjects.ts";

/** What an answer to each kind of item is to an expression; kinds left out cannot be read. */
export const ANSWER_TYPES: Readonly<Partial<Record<Item["kind"], ExpressionType>>> = {
  measure: "double",
  count: "double",
  tighten: "double",
  confirm: "bool",
  choose: "string",
  identify: "string",
};

/** How expressions call the number of units of each kind. */
export const COUNT_NAMES: Readonly<Record<UnitKind, string>> = {
  "battery-pack": "batteryPack",
  inverter: "inverter",
  gateway: "gateway",
  meter: "meter",
  isolator: "isolator",
};

/** The names of a whole plan. */
export interface PlanNames {
  items: ReadonlyMap<string, Item>;
  attributes: ReadonlyMap<string, ExpressionType>;
}

const ATTRIBUTE_TYPES = { number: "double", text: "string", flag: "bool" } as const;
const SITE = new Set(["supply", "region", "country"]);
const COUNTS = new Set(Object.values(COUNT_NAMES));
const UNIT: ReadonlyMap<string, ExpressionType> = new Map([
  ["serial", "string"],
  ["kind", "string"],
  ["hardwareRevision", "string"],
  ["position", "double"],
]);

/** Gathers the names once, for all expressions of the plan. */
export function planNames(plan: Plan): PlanNames {
  return {
    items: new Map(
      plan.stages.flatMap((stage) => stage.items).map((item) => [item.id, item] as const),
    ),
    attributes: new Map(
      Object.entries(plan.attributes).map(([name, type]) => [name, ATTRIBUTE_TYPES[type]]),
    ),
  };
}

/**
 * The names that expressions of one item may read.
 * @param value type of `value`, in the expression of a limit
 */
export function namesFor(names: PlanNames, item: Item, value?: ExpressionType): ResolveName {
  const isPerUnit = item.repeat !== undefined && "per" in item.repeat && item.repeat.per === "unit";
  return (root, field) => {
    switch (root) {
      case "value":
        return field === "" ? value : undefined;
      case "site":
        return SITE.has(field) ? "string" : undefined;
      case "count":
        return COUNTS.has(field) ? "double" : undefined;
      case "model":
        return isPerUnit ? names.attributes.get(field) : undefined;
      case "unit":
        return isPerUnit ? UNIT.get(field) : undefined;
      case "answers":
        return answerType(item, names.items.get(field));
      case "readings":
        return readingsType(item, names.items.get(field));
      default:
        return undefined;
    }
  };
}

function answerType(item: Item, other: Item | undefined): ValueType | undefined {
  if (!other || other.id === item.id) return undefined;
  return !other.repeat || sameSubjects(item, other) ? ANSWER_TYPES[other.kind] : undefined;
}

function readingsType(item: Item, other: Item | undefined): ValueType | undefined {
  if (!other?.repeat || other.id === item.id) return undefined;
  return ANSWER_TYPES[other.kind] === "double" ? "list<double>" : undefined;
}
