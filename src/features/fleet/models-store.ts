// Installed units by model and by level, each a scan of one firm's rows; lists of them are read a
// page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { keyDown } from "../firmware/level-sql.ts";

/** With $1 the firm; alias v. */
const LEVELS = `(SELECT m.id, m.code, m.name, u.level, u.key, u.units, r.level AS target,
    coalesce(u.key < t.target_key AND r.withdrawn_on IS NULL, false) AS below
  FROM (SELECT model_id, firmware_level AS level, firmware_key AS key, count(*)::int AS units
    FROM unit WHERE firm_id = $1::uuid AND state = 'installed' GROUP BY 1, 2, 3) u
  JOIN product_model m ON m.firm_id = $1::uuid AND m.id = u.model_id
  LEFT JOIN firmware_target t ON t.firm_id = $1::uuid AND t.model_id = m.id
    AND t.ring_id IS NULL AND t.region IS NULL
  LEFT JOIN firmware_release r ON r.firm_id = $1::uuid AND r.id = t.release_id) v`;

const FIGURES = `(SELECT v.id, v.code, v.name, v.target, sum(v.units)::int AS units,
    coalesce(sum(v.units) FILTER (WHERE v.below), 0)::int AS below,
    coalesce(sum(v.units) FILTER (WHERE v.key IS NULL), 0)::int AS unclear
  FROM ${LEVELS} GROUP BY 1, 2, 3, 4) f`;

export interface ModelFigures {
  id: string;
  code: string;
  name: string;
  /** Level of the target that counts everywhere. */
  target: string | null;
  units: number;
  below: number;
  /** Units whose level nobody has read, or that cannot be ordered. */
  unclear: number;
}

export const FLEET_COLUMNS = ["code", "units", "target", "below", "unclear"] as const;
const counted = (count: string): string => `to_char(${count}, 'FM0000000000')`;
const ORDERS: Readonly<Record<string, string>> = {
  code: "f.code",
  units: counted("f.units"),
  target: "coalesce(f.target, '')",
  below: counted("f.below"),
  unclear: counted("f.unclear"),
};
const HOLDS_CODE = (code: string): string =>
  `($2::text IS NULL OR strpos(lower(${code}), lower($2)) > 0)`;

export async function sortedFleetModels(
  tx: FirmTransaction,
  { code, sorting, most }: { code?: string | undefined; sorting: Sorting; most: number },
) {
  return sortedRows<ModelFigures>(tx, {
    ...{ select: "f.*", from: FIGURES, where: [HOLDS_CODE("f.code")] },
    values: [tx.firmId, code ?? null],
    by: ORDERS[sorting.column] ?? "f.code",
    ...{ id: "f.id", descending: sorting.descending, after: sorting.after, most },
  });
}

/** The model, or without one that of which most units are installed. */
export async function fleetModel(tx: FirmTransaction, id?: string): Promise<ModelFigures | null> {
  const rows = await tx.$queryRawUnsafe<ModelFigures[]>(
    `SELECT f.* FROM ${FIGURES} WHERE $2::uuid IS NULL OR f.id = $2
     ORDER BY f.units DESC, f.code LIMIT 1`,
    ...[tx.firmId, id ?? null],
  );
  return rows[0] ?? null;
}

export interface LevelOfModel {
  modelId: string;
  level: string | null;
  units: number;
  below: boolean;
  /** How many levels the model has in all. */
  levels: number;
}

/** Of each model its highest levels, at most so many. */
export async function levelsOf(
  tx: FirmTransaction,
  ids: readonly string[],
  mostOfEach: number,
): Promise<LevelOfModel[]> {
  return tx.$queryRawUnsafe(
    `SELECT w.id AS "modelId", w.level, w.units, w.below, w.levels
     FROM (SELECT v.*, count(*) OVER (PARTITION BY v.id)::int AS levels,
         row_number() OVER (PARTITION BY v.id ORDER BY v.key DESC NULLS LAST, v.level) AS number
       FROM ${LEVELS} WHERE v.id = ANY ($2::uuid[])) w
     WHERE w.number <= $3::int ORDER BY w.id, w.number`,
    ...[tx.firmId, ids, mostOfEach],
  );
}

export interface CountedLevel {
  modelId: string;
  code: string;
  name: string;
  level: string | null;
  units: number;
  target: string | null;
  below: boolean;
  place: string;
}

/** By the model's code, then the highest level first and what cannot be ordered last. */
const PLACE = `v.code || chr(31) || coalesce(${keyDown("v.key")}, '~') || chr(31)
  || coalesce(v.level, '')`;

export async function countByLevel(
  tx: FirmTransaction,
  { code, after, most }: { code?: string | undefined; after?: string | undefined; most: number },
): Promise<CountedLevel[]> {
  return tx.$queryRawUnsafe(
    `SELECT v.id AS "modelId", v.code, v.name, v.level, v.units, v.target, v.below,
       ${PLACE} AS place
     FROM ${LEVELS} WHERE ${HOLDS_CODE("v.code")} AND ($3::text IS NULL OR ${PLACE} ~>~ $3)
     ORDER BY ${PLACE} USING ~<~ LIMIT $4::int`,
    ...[tx.firmId, code ?? null, after ?? null, most],
  );
}
