// Requirement: the instruments that a plan names are on the van, and a torque tool that reaches the
// settings asked for. An item that may turn out not to apply still has its tool packed: that is
// known at the site only.
import type { Item } from "../plan/item.ts";
import type { Plan } from "../plan/schema.ts";
import type { KitItem, KitModel, KitUnit } from "./kit-item.ts";

/** A torque comes from a torque tool, whether the plan names one or not. */
const toolClassOf = (item: Item): string | undefined =>
  item.instrument?.class ?? (item.kind === "tighten" ? "torque-wrench" : undefined);

/** Whether the item is asked on this job at all: of a kind of unit that is there, or of the job. */
function isAsked({ repeat }: Item, units: readonly KitUnit[]): boolean {
  if (!repeat || !("per" in repeat) || repeat.per !== "unit") return true;
  return units.some(({ kind }) => repeat.ofKind === undefined || repeat.ofKind === kind);
}

/**
 * A tool for each class of instrument that the plan's items name.
 * @returns tools in the order of the plan; key `tool:<class>`; torque settings in the item's unit
 */
export function planTools(
  plan: Plan,
  models: readonly KitModel[],
  units: readonly KitUnit[],
): KitItem[] {
  const asked = plan.stages
    .flatMap(({ items }) => items)
    .filter((item) => toolClassOf(item) !== undefined && isAsked(item, units));
  return [...Map.groupBy(asked, (item) => toolClassOf(item) ?? "")].map(([toolClass, items]) => {
    const settings = settingsOf(items, models);
    return {
      key: `tool:${toolClass}`,
      category: "tool",
      name: toolClass.replaceAll("-", " "),
      toolClass,
      amount: 1,
      countedIn: "piece",
      perPerson: false,
      notes: [
        { code: "for-items", items: items.map(({ title }) => title) },
        ...(settings.length > 0 ? [{ code: "torque-settings" as const, settings }] : []),
      ],
      sources: [plan.title],
    };
  });
}

/** Each setting once, the smallest first: which range the tool must have. */
function settingsOf(items: readonly Item[], models: readonly KitModel[]): string[] {
  const found = items.flatMap((item) => {
    if (item.kind !== "tighten" || !("nominal" in item.limit)) return [];
    return valuesOf(item.limit.nominal, models).map((value) => ({ value, unit: item.unit }));
  });
  const texts = found
    .toSorted((a, b) => a.value - b.value)
    .map(({ value, unit }) => `${value} ${unit}`);
  return [...new Set(texts)];
}

/** A number as it stands, or what the models say where the plan only names their attribute. */
function valuesOf(bound: number | { cel: string }, models: readonly KitModel[]): number[] {
  if (typeof bound === "number") return [bound];
  const name = /^\s*model\.(\w+)\s*$/.exec(bound.cel)?.[1];
  return models.flatMap(({ attributes }) => {
    const value = name === undefined ? undefined : attributes[name];
    return typeof value === "number" ? [value] : [];
  });
}
