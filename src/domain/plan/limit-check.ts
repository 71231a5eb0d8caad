// Requirement: a limit that nothing can meet, or that accepts what is not on offer, is a fault of
// the plan and is found at publication.
import type { Item, ItemOf } from "./item.ts";
import type { Limit } from "./limit.ts";

export interface LimitFault {
  /** JSON pointer from the item. */
  place: string;
  problem: string;
}

/**
 * What about the item's limit cannot be right, among what is written as plain numbers and texts.
 */
export function limitFaults(item: Item): LimitFault[] {
  if (!("limit" in item) || !item.limit) return [];
  const { limit } = item;
  if ("oneOf" in limit) return item.kind === "choose" ? notOnOffer(item, limit.oneOf) : [];
  if ("expression" in limit || "count" in limit || "nominal" in limit) return [];
  const reason = emptyRange(limit, item.kind === "count");
  return reason === undefined ? [] : [{ place: "/limit", problem: reason }];
}

type Range = Extract<Limit, { min?: unknown }>;

function emptyRange(range: Range, isWhole: boolean): string | undefined {
  const low = range.min ?? range.above;
  const high = range.max ?? range.below;
  if (typeof high === "number" && isWhole && (high < 0 || (high === 0 && range.below === 0))) {
    return `No count is below ${high}.`;
  }
  if (typeof low !== "number" || typeof high !== "number") return undefined;
  const isOpen = range.above !== undefined || range.below !== undefined;
  if (low > high || (low === high && isOpen)) return `No value lies between ${low} and ${high}.`;
  if (!isWhole) return undefined;
  const first = range.above === undefined ? Math.ceil(low) : Math.floor(low) + 1;
  const last = range.below === undefined ? Math.floor(high) : Math.ceil(high) - 1;
  return first > last ? `No whole number lies between ${low} and ${high}.` : undefined;
}

function notOnOffer(item: ItemOf<"choose">, accepted: readonly (string | number)[]): LimitFault[] {
  return accepted.flatMap((value, index) =>
    item.options.includes(String(value))
      ? []
      : [{ place: `/limit/oneOf/${index}`, problem: `"${value}" is not among the options.` }],
  );
}
