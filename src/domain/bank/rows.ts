// Settings printed as a table: one row a pack position, sometimes another table for another bank
// size, and often a remark for the last pack (its termination).
import type { Positions } from "./settings.ts";
import type { Protocol } from "./switch-map.ts";

type Row = Extract<Protocol["settings"], { form: "rows" }>["rows"][number];

/** Positions by switch id for one pack; refused where no row or more than one row fits. */
export function settingsByRows(
  rows: readonly Row[],
  place: { position: number; packCount: number },
): Positions {
  const forSize = rows.filter(({ packCount }) => {
    if (!packCount) return true;
    return place.packCount >= packCount.minimum && place.packCount <= packCount.maximum;
  });
  const own = forSize.filter((row) => row.position === place.position);
  if (own.length !== 1) {
    const problem =
      `pack ${place.position} has ${own.length} rows for a bank of ${place.packCount}, ` +
      "not one";
    return { ok: false, problem };
  }
  const last =
    place.position === place.packCount ? forSize.filter((row) => row.position === "last") : [];
  if (last.length > 1) return { ok: false, problem: "more than one row speaks of the last pack" };
  const settings = [...own, ...last].flatMap((row) => Object.entries(row.settings));
  return { ok: true, byId: new Map(settings) };
}
