// Requirement: work stops at a hold point until it is met (hold point: ISO 9000 family, inspection
// and test plans). Apart from the plan's shape, so that a tablet judges without the code that reads
// plans.
import type { Item } from "./item.ts";

/** Whether work stops at this item until it is met; a safety-critical item always is one. */
export const isHoldPoint = (item: Pick<Item, "holdPoint" | "safetyCritical">): boolean =>
  item.holdPoint || item.safetyCritical === true;
