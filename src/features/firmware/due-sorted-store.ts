// The due list in the order of a column. All that is due is looked at for that, as for its counts;
// the list in the order of ids, which programs read, needs only what is near.
import type { Query } from "../../db/query.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { BELOW, EFFECTIVE, joinSite, TARGETS, UNCLEAR } from "./due-sql.ts";
import {
  type DueQuestion,
  type DueRow,
  filterValues,
  PLANNED_ANEW,
  UNITS_OF_PAGE,
} from "./due-store.ts";

export const DUE_COLUMNS = ["site", "due"] as const;
/** Of a site: its reference, or the first day on which something of it is due. */
const ORDERS: Readonly<Record<string, string>> = {
  site: "s.reference",
  due: "min(t.due_on)::text",
};

const pageBy = (key: string, descending: boolean): string => {
  const [beyond, order] = descending ? ["<", "DESC"] : [">", "ASC"];
  return `WITH ${TARGETS},
  page AS MATERIALIZED (
    SELECT d.site_id, ${key} AS place FROM (
      SELECT * FROM ${BELOW} b UNION ALL SELECT * FROM ${UNCLEAR} b) d
      JOIN targets t ON t.id = d.target_id ${joinSite("d.site_id")}
    WHERE ${EFFECTIVE} GROUP BY d.site_id, s.reference
    HAVING $9::uuid IS NULL OR (${key} COLLATE "C", d.site_id) ${beyond} ($12::text, $9::uuid)
    ORDER BY ${key} COLLATE "C" ${order}, d.site_id ${order} LIMIT $10::int)
  ${UNITS_OF_PAGE}
  ORDER BY p.place COLLATE "C" ${order}, s.id ${order}, u.serial`;
};

export async function listDueSorted(
  query: Query,
  question: DueQuestion,
  { sorting, most }: { sorting: Sorting; most: number },
): Promise<DueRow[]> {
  const { column, descending, after } = sorting;
  const text = pageBy(ORDERS[column] ?? "s.reference", descending);
  const place = [after?.id ?? null, most, question.now, after?.text ?? null];
  const [, rows] = await query(PLANNED_ANEW, {
    text,
    values: [...filterValues(question), ...place],
  });
  return rows as DueRow[];
}
