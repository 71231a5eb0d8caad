// Requirement: two versions of a plan are compared by what they ask, item by item, in the order of
// the plan, so that a publisher and a crew see what a new version means for them.
import type { ChangeWeight, Concern, PlanChange, PlanDiff } from "./diff-change.ts";
import { itemChanges } from "./diff-item.ts";
import { mergedOrder, movedMembers } from "./diff-order.ts";
import { type PlacedItem, placedItems } from "./diff-places.ts";
import { planChanges } from "./diff-plan.ts";
import { isHoldPoint } from "./hold-point.ts";
import type { Item } from "./item.ts";
import type { Plan, Stage } from "./schema.ts";

export type { PlanChange, PlanDiff } from "./diff-change.ts";

/**
 * What the later version changes: the plan itself, then stage by stage in the later order, what was
 * removed at the place where it stood.
 * @param before and `after`: checked plans
 */
export function diffPlans(before: Plan, after: Plan): PlanDiff {
  const comparison = new Comparison(before, after);
  const [old, now] = [before, after].map(instrumentsOf);
  return {
    changes: [...planChanges(before, after), ...comparison.changes()],
    instruments: {
      toBring: (now ?? []).filter((one) => !old?.includes(one)),
      noLonger: (old ?? []).filter((one) => !now?.includes(one)),
    },
  };
}

/** Classes of instruments that a plan asks for, by name. */
export function instrumentsOf(plan: Plan): string[] {
  const wanted = plan.stages.flatMap(({ items }) =>
    items.flatMap((item) => instrumentOf(item) ?? []),
  );
  return [...new Set(wanted)].sort();
}

const instrumentOf = (item: Item): string | undefined =>
  item.instrument?.class ?? (item.kind === "tighten" ? "torque-wrench" : undefined);

/** Goes through two plans side by side. */
class Comparison {
  readonly #before: Plan;
  readonly #after: Plan;
  readonly #old: ReadonlyMap<string, PlacedItem>;
  readonly #now: ReadonlyMap<string, PlacedItem>;
  readonly #titles: ReadonlyMap<string, string>;

  constructor(before: Plan, after: Plan) {
    this.#before = before;
    this.#after = after;
    this.#old = placedItems(before);
    this.#now = placedItems(after);
    this.#titles = new Map(
      [...this.#old, ...this.#now].map(([id, { item }]) => [id, item.title] as const),
    );
  }

  changes(): PlanChange[] {
    const [old, now] = [this.#before, this.#after].map(({ stages }) => stages.map(({ id }) => id));
    const moved = movedMembers(old ?? [], now ?? []);
    return mergedOrder(old ?? [], now ?? []).flatMap((id) => this.#stage(id, moved.has(id)));
  }

  #stage(id: string, isMoved: boolean): PlanChange[] {
    const before = this.#before.stages.find((stage) => stage.id === id);
    const after = this.#after.stages.find((stage) => stage.id === id);
    const [old, now] = [before, after].map((stage) => stage?.items.map((item) => item.id) ?? []);
    const moved = movedMembers(old ?? [], now ?? []);
    return [
      ...stageChanges(before, after, isMoved ? this.#stageBefore(id) : undefined),
      ...mergedOrder(old ?? [], now ?? []).flatMap((itemId) =>
        this.#item(itemId, id, moved.has(itemId)),
      ),
    ];
  }

  #stageBefore(id: string): string {
    const place = this.#after.stages.findIndex((stage) => stage.id === id);
    const previous = this.#after.stages[place - 1];
    return previous ? `after "${previous.title}"` : "first";
  }

  /** Told once, at its new place, whichever stage it came from. */
  #item(id: string, stageId: string, isMoved: boolean): PlanChange[] {
    const [before, after] = [this.#old.get(id), this.#now.get(id)];
    if (before && !after) return [comingOrGoing("removed", before)];
    if (!after || after.stage.id !== stageId) return [];
    if (!before) return [comingOrGoing("added", after)];
    const changes: PlanChange[] = [];
    if (before.stage.id !== after.stage.id || isMoved) changes.push(moveOf(before, after));
    if (before.item.title !== after.item.title) {
      const { title } = after.item;
      changes.push({
        ...{ of: "item", kind: "renamed", stageId, itemId: id, field: "title" },
        ...{ before: before.item.title, after: title, weight: "wording" },
        concerns: ["installer"],
        sentence: `"${before.item.title}" is now called "${title}".`,
      });
    }
    const ruled = (plan: Plan, { item }: PlacedItem) => ({ item, decisionRule: plan.decisionRule });
    const [old, now] = [ruled(this.#before, before), ruled(this.#after, after)];
    return [...changes, ...itemChanges(old, now, stageId, this.#titles)];
  }
}

function stageChanges(
  before: Stage | undefined,
  after: Stage | undefined,
  moved: string | undefined,
): PlanChange[] {
  const stage = after ?? before;
  if (!stage) return [];
  const common = { of: "stage", stageId: stage.id, concerns: ["installer"] } as const;
  if (!before || !after) {
    const kind = after ? "added" : "removed";
    const sentence = `The stage "${stage.title}" is ${after ? "new" : "gone"}.`;
    return [{ ...common, kind, weight: "different", sentence }];
  }
  const changes: PlanChange[] = [];
  if (moved) {
    const sentence = `The stage "${after.title}" now comes ${moved}.`;
    changes.push({ ...common, kind: "moved", weight: "different", sentence });
  }
  if (before.title !== after.title) {
    const sentence = `The stage "${before.title}" is now called "${after.title}".`;
    const values = { field: "title", before: before.title, after: after.title };
    changes.push({ ...common, kind: "renamed", ...values, weight: "wording", sentence });
  }
  return changes;
}

function comingOrGoing(kind: "added" | "removed", { item, stage }: PlacedItem): PlanChange {
  const isHold = isHoldPoint(item);
  const what = isHold
    ? `a hold point${item.safetyCritical ? " that nobody can concede" : ""}`
    : "no hold point";
  const verb = kind === "added" ? "is new in" : "is gone from";
  const weight: ChangeWeight = kind === "added" ? "stricter" : "looser";
  const concerns: Concern[] = ["installer"];
  if (instrumentOf(item)) concerns.push("office");
  if (isHold) concerns.push("manager");
  const being = kind === "added" ? "is" : "was";
  const sentence = `"${item.title}" ${verb} "${stage.title}"; it ${being} ${what}.`;
  return { of: "item", kind, stageId: stage.id, itemId: item.id, weight, concerns, sentence };
}

function moveOf(before: PlacedItem, after: PlacedItem): PlanChange {
  const { item, stage } = after;
  const place = after.previous ? `after "${after.previous.title}"` : "first";
  const from = before.stage.id === stage.id ? "" : `, no longer in "${before.stage.title}"`;
  const sentence = `"${item.title}" now comes ${place} in "${stage.title}"${from}.`;
  return {
    ...{ of: "item", kind: "moved", stageId: stage.id, itemId: item.id },
    ...{ weight: "different", concerns: ["installer"], sentence },
  };
}
