// Which firmware level a unit shows on a day: those behind a release change to it when they are
// updated, and units that come from the maker after it have it already.
import { Temporal } from "temporal-polyfill";
import type { DemoModel } from "./tables/models.ts";
import { RELEASES } from "./tables/releases.ts";

export function levelOn(
  { code, levels }: DemoModel,
  day: Temporal.PlainDate,
  today: Temporal.PlainDate,
): string {
  const release = RELEASES.find(({ model, level }) => model === code && level === levels.current);
  const isOut =
    !release || Temporal.PlainDate.compare(day, today.add({ days: release.releasedDay })) >= 0;
  return isOut ? levels.current : (levels.behind ?? levels.current);
}

/** What an item reads: a firmware visit finds the older level and leaves the newer one. */
export function levelAt(
  model: DemoModel,
  itemId: string,
  day: Temporal.PlainDate,
  today: Temporal.PlainDate,
): string {
  if (itemId === "level_before") return model.levels.behind ?? model.levels.current;
  return itemId === "level_after" ? model.levels.current : levelOn(model, day, today);
}
