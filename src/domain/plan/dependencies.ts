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

/** Items that one needs in so many words: by `after`, `dwell`, its limits and its condition. */
const toldNeeds = ({ needs, applies }: CompiledItem): readonly string[] =>
  applies ? [...needs, ...applies.uses] : needs;

/**
 * Items that may have to be met before each item: by `after` and `dwell`, by its limits and what
 * decides on it; dead hold points before a live item; and what it asks to be repeated, which comes
 * before it is tried again.
 */
export function planDependencies(items: readonly CompiledItem[]): Map<string, readonly string[]> {
  return new Map(
    items.map((compiled) => {
      const { deadBefore = [], repeats = [] } = compiled.sequence ?? {};
      return [compiled.item.id, [...new Set([...toldNeeds(compiled), ...deadBefore, ...repeats])]];
    }),
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
      const circle = [...trail.slice(trail.indexOf(id)), id];
      faults.push({ id, place: "", code: "circle", sentence: circleSentence(circle, items) });
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

/** A live item waits for dead ones without saying so; then the sentence does. */
function circleSentence(circle: readonly string[], items: readonly CompiledItem[]): string {
  const told = `These items wait for each other: ${circle.join(" → ")}.`;
  const live = items.find((compiled) => {
    const next = circle[circle.indexOf(compiled.item.id) + 1];
    if (next === undefined || !circle.includes(compiled.item.id)) return false;
    return compiled.sequence?.deadBefore.includes(next) && !toldNeeds(compiled).includes(next);
  });
  if (!live) return told;
  return `${told} "${live.item.id}" is done live, so it waits for the dead hold points before it.`;
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
  for (const compiled of items) {
    for (const other of new Set(toldNeeds(compiled))) {
      if (!never.has(other)) continue;
      const sentence = `It needs "${other}", which is never asked.`;
      faults.push({ id: compiled.item.id, place: "", code: "unreachable", sentence });
    }
  }
  return faults;
}

/**
 * The items whose answers can bear on a verdict on any of these: they themselves, what must be met
 * before them, what their limits read and what decides whether those apply, what leaves breakers as
 * they need them, and what can ask for those to be repeated, all the way back.
 */
export function bearingOn(
  byId: ReadonlyMap<string, CompiledItem>,
  itemIds: readonly string[],
): string[] {
  const found = new Set<string>();
  /** Items of which only the reading counts: whether it failed, or what it was. */
  const readings = new Set<string>();
  const open = [...itemIds];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (found.has(id)) continue;
    found.add(id);
    const compiled = byId.get(id);
    if (!compiled) continue;
    open.push(...toldNeeds(compiled));
    const { sequence } = compiled;
    if (!sequence) continue;
    open.push(...sequence.deadBefore, ...sequence.leavers, ...sequence.repeats);
    for (const other of sequence.repeatedBy) {
      readings.add(other);
      for (const read of byId.get(other)?.reads ?? []) readings.add(read);
    }
  }
  return [...new Set([...found, ...readings])];
}
