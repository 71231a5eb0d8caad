// Requirement: for a site with several units, the shortest sequence of updates in which every
// combination on the way is compatible, or the reason why there is none (product rule). The maker's
// own instructions come first.
import { walkLevels } from "./level-walk.ts";
import { brokenNow, type OrderLayout, orderLayout, walkOf } from "./order-layout.ts";
import { type NoOrder, reasonOf } from "./order-reason.ts";
import type { OrderModel, OrderUnit } from "./order-request.ts";

export interface UpdateStep {
  unitId: string;
  label: string;
  from: string;
  to: string;
}

export type SafeOrder =
  | { state: "in-order"; steps: UpdateStep[]; sentence: string; brokenNow: string[] }
  | NoOrder
  | { state: "unclear"; sentence: string };

/** Units of one site that are ordered together. */
export const ORDER_UNITS_MOST = 16;
/** Combinations looked at before the answer is `unclear`. */
export const COMBINATIONS_MOST = 50_000;

/**
 * The fewest updates that bring every unit to its target, one unit at a time, so that after each of
 * them no two units stand at levels that exclude each other. A pair that excludes each other
 * already is told (`brokenNow`) and borne until one of the two is updated. `unclear`: a level
 * cannot be ordered, or the site is too large to search; never a guess.
 */
export function safeOrder(
  models: readonly OrderModel[],
  units: readonly OrderUnit[],
  combinationsMost = COMBINATIONS_MOST,
): SafeOrder {
  if (units.length > ORDER_UNITS_MOST) {
    const sentence = `${units.length} units are too many; at most ${ORDER_UNITS_MOST} are ordered.`;
    return { state: "unclear", sentence };
  }
  const laidOut = orderLayout(models, units);
  if (!laidOut.ok) return { state: "unclear", sentence: laidOut.problem };
  const { layout } = laidOut;
  const walk = walkOf(layout, [...units.keys()], layout.rules);
  const result = walkLevels(walk, { mostSeen: combinationsMost });
  if (result.found === "none") return reasonOf(layout, result.stuck);
  if (result.found === "undecided") {
    const tried = `No order was proven or ruled out among ${combinationsMost} combinations`;
    const sentence = `${tried}; set nearer targets and update in two visits, or ask the maker.`;
    return { state: "unclear", sentence };
  }
  const steps = result.steps.map((step) => inTexts(layout, step));
  return { state: "in-order", steps, sentence: inWords(steps), brokenNow: brokenNow(layout) };
}

function inTexts(
  layout: OrderLayout,
  { unit, from, to }: { unit: number; from: number; to: number },
): UpdateStep {
  const { id = "", label = "", modelCode = "" } = layout.units[unit] ?? {};
  const levels = layout.ladders.get(modelCode)?.levels ?? [];
  return { unitId: id, label, from: levels[from] ?? "", to: levels[to] ?? "" };
}

function inWords(steps: readonly UpdateStep[]): string {
  if (steps.length === 0) return "Every unit is at its target.";
  const list = steps.map(({ label, from, to }) => `${label} from ${from} to ${to}`).join(", then ");
  return `${steps.length === 1 ? "1 update" : `${steps.length} updates`}: ${list}.`;
}
