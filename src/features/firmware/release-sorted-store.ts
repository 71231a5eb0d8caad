// The releases of the page: filtered, in the order of a column, a page at a time.
import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { keyDown, keyUp } from "./level-sql.ts";

export const RELEASE_COLUMNS = ["model", "level", "severity", "released"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  // The highest level of each model first.
  model: `m.code || chr(31) || ${keyDown("r.level_key")}`,
  level: keyUp("r.level_key"),
  severity: "array_position(ARRAY['safety', 'important', 'routine'], r.severity)::text",
  released: "r.released_on::text",
};

const SELECT = `r.id, r.model_id AS "modelId", m.code AS "modelCode", r.level, r.severity,
  r.released_on::text AS "releasedOn", r.from_min AS "fromMin", r.from_below AS "fromBelow",
  r.hardware_revisions AS "hardwareRevisions", jsonb_array_length(r.companions) AS companions,
  r.file_name AS "fileName", r.file_sha256 AS "fileSha256",
  r.withdrawn_on::text AS "withdrawnOn", r.withdrawn_reason AS "withdrawnReason"`;
const FROM =
  "firmware_release r JOIN product_model m ON m.firm_id = r.firm_id AND m.id = r.model_id";
const CONDITIONS = [
  "r.firm_id = $1::uuid",
  "($2::uuid IS NULL OR r.model_id = $2)",
  "($3::text IS NULL OR r.severity = $3)",
  "($4::boolean IS NULL OR (r.withdrawn_on IS NOT NULL) = $4)",
];

export interface ListedRelease {
  id: string;
  modelId: string;
  modelCode: string;
  level: string;
  severity: "safety" | "important" | "routine";
  releasedOn: string;
  fromMin: string | null;
  fromBelow: string | null;
  hardwareRevisions: string[];
  companions: number;
  fileName: string | null;
  fileSha256: string | null;
  withdrawnOn: string | null;
  withdrawnReason: string | null;
}

export interface SortedReleaseFilter {
  modelId?: string | undefined;
  severity?: string | undefined;
  withdrawn?: boolean | undefined;
}

export async function sortedReleases(
  tx: FirmTransaction,
  { modelId, severity, withdrawn }: SortedReleaseFilter,
  { sorting, most }: { sorting: Sorting; most: number },
) {
  return sortedRows<ListedRelease>(tx, {
    ...{ select: SELECT, from: FROM, where: CONDITIONS },
    values: [tx.firmId, modelId ?? null, severity ?? null, withdrawn ?? null],
    by: ORDERS[sorting.column] ?? "r.id::text",
    ...{ id: "r.id", descending: sorting.descending, after: sorting.after, most },
  });
}
