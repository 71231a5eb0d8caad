// Expressions of a plan read attributes of product models. A model that lacks one would leave its
// items without a limit in the cellar, so such a unit is refused while that can still be mended.
import type { Item } from "../../domain/plan/item.ts";
import type { Plan } from "../../domain/plan/schema.ts";

export interface ModelFacts {
  kind: string;
  attributes: unknown;
}

export interface MissingAttribute {
  name: string;
  type: "number" | "text" | "flag";
}

const JSON_TYPES = { number: "number", text: "string", flag: "boolean" } as const;

/**
 * Attributes that the plan needs of a unit of this model and that it has not, or not so typed. One
 * is needed of the units that it is read for; one that no expression reads, of every unit.
 */
export function missingAttributes(plan: Plan, model: ModelFacts): MissingAttribute[] {
  const items = plan.stages.flatMap((stage) => stage.items);
  const readers = items.map((item) => ({ item, reads: attributesRead(item) }));
  const has = (model.attributes ?? {}) as Record<string, unknown>;
  return Object.entries(plan.attributes).flatMap(([name, type]) => {
    const reading = readers.filter(({ reads }) => reads.has(name));
    const isNeeded =
      reading.length === 0 || reading.some(({ item }) => isAskedOf(item, model.kind));
    return isNeeded && typeof has[name] !== JSON_TYPES[type] ? [{ name, type }] : [];
  });
}

function isAskedOf({ repeat }: Item, kind: string): boolean {
  if (!repeat || !("per" in repeat) || repeat.per !== "unit") return false;
  return repeat.ofKind === undefined || repeat.ofKind === kind;
}

/** By its text: a name inside a quoted word counts too, which asks for more and never for less. */
function attributesRead(item: Item): Set<string> {
  const text = JSON.stringify(item);
  return new Set([...text.matchAll(/\bmodel\s*\.\s*([a-zA-Z]\w*)/g)].map(([, name]) => name ?? ""));
}
