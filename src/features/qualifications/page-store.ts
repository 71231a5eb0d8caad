import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { dayText, type QualificationRow, WITH_NAMES } from "./store.ts";

export const QUALIFICATION_COLUMNS = ["validTo", "person", "kind"] as const;
/** What never runs out comes last. */
const END = "coalesce(q.valid_to::text, '9999-12-31')";
const ORDERS: Readonly<Record<string, string>> = {
  validTo: END,
  person: "fold_text(p.name)",
  kind: "fold_text(k.name)",
};

export interface RegisterFilter {
  personId?: string | undefined;
  kindId?: string | undefined;
  /** Those that end before this day. */
  endsBefore?: string | undefined;
  /** Those too that a later one of the same person and kind stands in for. */
  earlier: boolean;
  sorting: Sorting;
  most: number;
}

export async function registerIds(tx: FirmTransaction, filter: RegisterFilter) {
  const { personId, kindId, endsBefore, earlier, sorting, most } = filter;
  return sortedRows<{ id: string }>(tx, {
    select: "q.id",
    from: `qualification q
      JOIN person p ON p.firm_id = q.firm_id AND p.id = q.person_id
      JOIN qualification_kind k ON k.firm_id = q.firm_id AND k.id = q.kind_id`,
    where: [
      "q.firm_id = $1::uuid",
      "p.active",
      "($2::uuid IS NULL OR q.person_id = $2::uuid)",
      "($3::uuid IS NULL OR q.kind_id = $3::uuid)",
      "($4::date IS NULL OR q.valid_to < $4::date)",
      `($5::boolean OR NOT EXISTS (SELECT FROM qualification l WHERE l.firm_id = q.firm_id
        AND l.person_id = q.person_id AND l.kind_id = q.kind_id AND l.id <> q.id
        AND (coalesce(l.valid_to, 'infinity'), l.id) > (coalesce(q.valid_to, 'infinity'), q.id)))`,
    ],
    values: [tx.firmId, personId ?? null, kindId ?? null, endsBefore ?? null, earlier],
    by: ORDERS[sorting.column] ?? END,
    id: "q.id",
    descending: sorting.descending,
    after: sorting.after,
    most,
  });
}

/** The rows of these ids, in their order. */
export async function qualificationsOf(
  tx: FirmTransaction,
  ids: readonly string[],
): Promise<QualificationRow[]> {
  const rows = await tx.qualification.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
    include: WITH_NAMES,
  });
  const byId = new Map(rows.map((row) => [row.id, row]));
  return ids.flatMap((id) => byId.get(id) ?? []);
}

/** Of each of these people and each kind, the one that ends last. */
export async function lastHeld(tx: FirmTransaction, personIds: readonly string[]) {
  const rows = await tx.$queryRaw<
    { id: string; personId: string; kindId: string; validTo: Date | null }[]
  >`SELECT DISTINCT ON (person_id, kind_id) id, person_id AS "personId", kind_id AS "kindId",
      valid_to AS "validTo" FROM qualification
    WHERE firm_id = ${tx.firmId}::uuid AND person_id = ANY (${personIds}::uuid[])
    ORDER BY person_id, kind_id, valid_to DESC NULLS FIRST, id DESC`;
  return rows.map(({ validTo, ...row }) => ({ ...row, validTo: validTo && dayText(validTo) }));
}
