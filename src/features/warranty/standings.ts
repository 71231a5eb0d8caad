import type { FirmTransaction } from "../../db/scope.ts";
import { judgeUnits } from "./judge.ts";
import { STANDINGS, type UnitWarranty, type WarrantyCounts } from "./schemas.ts";
import { countStandings, type StandingFilter, standingPage } from "./standing-store.ts";

/** The warranties that the filter lets through, in the order of their units' ids. */
export async function standings(
  tx: FirmTransaction,
  filter: StandingFilter & { after?: string | undefined; most: number },
  now: Date,
): Promise<UnitWarranty[]> {
  const { state, registration, registerBefore, ...place } = filter;
  const isFiltered = [state, registration, registerBefore].some((value) => value !== undefined);
  if (!isFiltered) return judgeUnits(tx, place, now);
  const ids = await standingPage(tx, filter, now);
  return judgeUnits(tx, { ids, most: filter.most }, now);
}

export async function countedStandings(
  tx: FirmTransaction,
  filter: Pick<StandingFilter, "modelId" | "siteId">,
  now: Date,
): Promise<WarrantyCounts> {
  const rows = await countStandings(tx, filter, now);
  const units = Object.fromEntries(STANDINGS.map((state) => [state, 0]));
  for (const row of rows) units[row.state] = row.units;
  const unregistered = rows.reduce((sum, row) => sum + row.unregistered, 0);
  return { units: units as WarrantyCounts["units"], unregistered };
}
