// Requirement: items that wait for each other in a circle, or that can never apply, are faults of
// the plan: nobody could ever answer them.
import type { CompiledItem } from "./compile.ts";

export interface DependencyFault {
  id: string;
  /** JSON pointer from the item. */
  place: string;
  code: "circle" | "unreachable";
  sentence: string;
}

/**
 * Items that must be met before each item: by `after`, by its limits, and by what decides on it.
 */
export function planDependencies(items: readonly CompiledItem[]): Map<string, readonly string[]> {
  return new Map(
    items.map((compiled) => [
      compiled.item.id,
      [...new Set([...compiled.needs, ...(compiled.applies?.uses ?? [])])],
    ]),
  );
}

/** One fault for each circle of needs. */
export function findCircles(items: readonly CompiledItem[]): DependencyFault[] {
  const needs = planDependencies(items);
  const state = new Map<string, "open" | "done">();
  const trail: string[] = [];
  const faults: DependencyFault[] = [];
  const visit = (id: string): void => {
    if (state.get(id) === "done") return;
    if (state.get(id) === "open") {
      const circle = [...trail.slice(trail.indexOf(id)), id].join(" → ");
      const sentence = `These items wait for each other: ${circle}.`;
      faults.push({ id, place: "", code: "circle", sentence });
      return;
    }
    state.set(id, "open");
    trail.push(id);
    for (const other of needs.get(id) ?? []) visit(other);
    trail.pop();
    state.set(id, "done");
  };
  for (const { item } of items) visit(item.id);
  return faults;
}

/** Items whose condition is false whatever the job is, and items that need one of those. */
export function findUnreachable(items: readonly CompiledItem[]): DependencyFault[] {
  const never = new Set<string>();
  const faults: DependencyFault[] = [];
  for (const { item, applies } of items) {
    const result = applies?.evaluate({});
    if (!result?.ok || result.value !== false) continue;
    never.add(item.id);
    const sentence = `"${applies?.text}" is never true, so the item is never asked.`;
    faults.push({ id: item.id, place: "/appliesWhen", code: "unreachable", sentence });
  }
  for (const [id, needs] of planDependencies(items)) {
    for (const other of needs) {
      if (!never.has(other)) continue;
      const sentence = `It needs "${other}", which is never asked.`;
      faults.push({ id, place: "", code: "unreachable", sentence });
    }
  }
  return faults;
}

/**
 * The items whose answers can bear on a verdict on any of these: they themselves, what must be met
 * before them, what their limits read and what decides whether those apply, all the way back.
 */
export function bearingOn(
  byId: ReadonlyMap<string, CompiledItem>,
  itemIds: readonly string[],
): string[] {
  const found = new Set<string>();
  const open = [...itemIds];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (found.has(id)) continue;
    found.add(id);
    const compiled = byId.get(id);
    if (compiled) open.push(...compiled.needs, ...(compiled.applies?.uses ?? []));
  }
  return [...found];
}
