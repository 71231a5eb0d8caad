// Requirement: whoever works through a plan is led to each item after what it needs, and otherwise
// in the order in which the plan was written.
import type { CompiledItem } from "./compile.ts";
import { planDependencies } from "./dependencies.ts";

/** The items of a plan in an order in which they can be worked through. */
export function workingOrder(items: readonly CompiledItem[]): CompiledItem[] {
  const needs = planDependencies(items);
  const byId = new Map(items.map((compiled) => [compiled.item.id, compiled]));
  const placed = new Set<string>();
  const ordered: CompiledItem[] = [];
  const place = (compiled: CompiledItem): void => {
    const { id } = compiled.item;
    if (placed.has(id)) return;
    placed.add(id);
    for (const other of needs.get(id) ?? []) {
      const needed = byId.get(other);
      if (needed) place(needed);
    }
    ordered.push(compiled);
  };
  for (const compiled of items) place(compiled);
  return ordered;
}
