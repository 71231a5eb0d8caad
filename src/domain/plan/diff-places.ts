// Requirement: a change is told with its place: the stage of an item, and the item before it.
import type { Item } from "./item.ts";
import type { Plan, Stage } from "./schema.ts";

export interface PlacedItem {
  item: Item;
  stage: Stage;
  /** The item before it in its stage. */
  previous?: Item;
}

/** The items of a plan by id, in order. */
export function placedItems({ stages }: Plan): Map<string, PlacedItem> {
  return new Map(
    stages.flatMap((stage) =>
      stage.items.map((item, index): [string, PlacedItem] => {
        const previous = stage.items[index - 1];
        return [item.id, { item, stage, ...(previous ? { previous } : {}) }];
      }),
    ),
  );
}
