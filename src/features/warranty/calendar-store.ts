// Days to come of all warranties: the last day of each, and until when a unit is to be registered.
import type { FirmTransaction } from "../../db/scope.ts";
import { STANDING } from "./standing-store.ts";

export type DayKind = "register" | "ends";

export interface WarrantyDay {
  kind: DayKind;
  day: string;
  unitId: string;
  serial: string;
  modelCode: string;
  siteId: string | null;
  siteReference: string | null;
}

/** With $1 to $4 as `STANDING` has them; alias d. */
export const DAYS = `(SELECT 'ends' AS kind, w.ends_on AS day, w.* FROM ${STANDING}
  UNION ALL SELECT 'register', w.open_until, w.* FROM ${STANDING}) d`;
/** With $5 the first day and $6 the last. */
export const DAY_CONDITION = "d.day BETWEEN $5::date AND $6::date";
export const DAY_FIELDS = `d.kind, d.day::text AS day, d.id AS "unitId", d.serial,
  d.model_code AS "modelCode", d.site_id AS "siteId", d.site_reference AS "siteReference"`;

const valuesOf = (
  tx: FirmTransaction,
  { from, to, now }: { from: string; to: string; now: Date },
) => [tx.firmId, null, null, now, from, to] as const;

export async function countDays(
  tx: FirmTransaction,
  period: { from: string; to: string; now: Date },
): Promise<{ month: string; kind: DayKind; units: number }[]> {
  return tx.$queryRawUnsafe(
    `SELECT to_char(d.day, 'YYYY-MM') AS month, d.kind, count(*)::int AS units
     FROM ${DAYS} WHERE ${DAY_CONDITION} GROUP BY 1, 2 ORDER BY 1, 2`,
    ...valuesOf(tx, period),
  );
}

/** Days that nobody was reminded of; the end of what is over or lost already is no news. */
export async function untoldDays(
  tx: FirmTransaction,
  period: { from: string; to: string; registerTo: string; now: Date; most: number },
): Promise<WarrantyDay[]> {
  return tx.$queryRawUnsafe(
    `SELECT ${DAY_FIELDS} FROM ${DAYS} WHERE ${DAY_CONDITION}
       AND CASE d.kind WHEN 'ends' THEN d.state NOT IN ('expired', 'lapsed')
         ELSE d.day <= $8::date END
       AND NOT EXISTS (SELECT FROM warranty_reminder r WHERE r.firm_id = $1::uuid
         AND r.unit_id = d.id AND r.kind = d.kind AND r.due_on = d.day)
     ORDER BY d.day, d.kind, d.serial, d.id LIMIT $7::int`,
    ...valuesOf(tx, period),
    period.most,
    period.registerTo,
  );
}

/** Keeps the days as told, and gives back those that no twin told meanwhile. */
export async function markTold(
  tx: FirmTransaction,
  days: readonly WarrantyDay[],
  now: Date,
): Promise<WarrantyDay[]> {
  const { firmId } = tx;
  if (days.length === 0) return [];
  // Waits for a twin that is under way: what that one told, this one does not.
  const told = await tx.warrantyReminder.createManyAndReturn({
    data: days.map(({ kind, day, unitId }) => ({
      ...{ firmId, unitId, kind, dueOn: new Date(day), toldAt: now },
    })),
    skipDuplicates: true,
  });
  const taken = new Set(told.map(({ unitId, kind }) => `${unitId} ${kind}`));
  return days.filter(({ unitId, kind }) => taken.has(`${unitId} ${kind}`));
}
