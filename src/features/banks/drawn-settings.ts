import { drawSettings } from "../../domain/bank/draw.ts";
import type { SetBank } from "./settings.ts";
import type { TriedBank } from "./try-settings.ts";

export function drawnSettings(set: SetBank | TriedBank): string {
  const differences = "differences" in set ? { differences: set.differences } : {};
  const addresses = set.packs.map(({ address }) => address);
  return drawSettings({ map: set.map, packs: set.packs, addresses, ...differences });
}
