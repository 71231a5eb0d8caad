// Where every unit of the firm stands, asked of the database so that lists can be filtered, sorted
// and counted however many units there are. The rules are those of src/domain/warranty, which each
// page's rows are judged by; a test holds the two together.
import type { FirmTransaction } from "../../db/scope.ts";
import { sortedRows } from "../../db/sorted-rows.ts";
import type { Sorting } from "../../web/sorted-list.ts";
import { EVERY_FACT } from "./fact-store.ts";
import type { STANDINGS } from "./schemas.ts";

export type Standing = (typeof STANDINGS)[number];

export interface StandingFilter {
  modelId?: string | undefined;
  siteId?: string | undefined;
  state?: Standing | undefined;
  /** Not registered, though the terms ask for it. */
  registration?: "open" | undefined;
  /** Not registered, and to be by the day before this one or earlier. */
  registerBefore?: string | undefined;
}

/** With $4 the moment. A day exists only from commissioning on. */
const DATED = `SELECT f.*, n.today, e.last_day + CASE WHEN NOT f.end_moves THEN 0
      ELSE (CASE extract(isodow FROM e.last_day) WHEN 6 THEN 2 WHEN 7 THEN 1 ELSE 0 END)
      END AS ends_on,
    CASE WHEN f.day <= n.today THEN f.day + f.register_within_days END AS register_by,
    CASE WHEN f.day <= n.today THEN f.day + f.firmware_within_days END AS firmware_by
  FROM (${EVERY_FACT}) f
  CROSS JOIN LATERAL (SELECT ($4::timestamptz AT TIME ZONE f.time_zone)::date AS today) n
  CROSS JOIN LATERAL (SELECT CASE WHEN f.day <= n.today
    THEN (f.day + make_interval(years => f.years))::date END AS last_day) e`;

const PROJECTED = `d.kwh + CASE WHEN d.kwh_on = d.day THEN 0
  ELSE d.kwh / (d.kwh_on - d.day) * greatest(0, d.ends_on - d.kwh_on) END`;

const STATE = `CASE
  WHEN d.terms_id IS NULL THEN 'none'
  WHEN d.day IS NULL OR d.day > d.today THEN 'pending'
  WHEN d.today > d.ends_on OR coalesce(d.kwh >= d.limit_kwh, false) THEN 'expired'
  WHEN coalesce(coalesce(d.registered_on, d.today) > d.register_by, false)
    OR coalesce(coalesce(d.firmware_on, d.today) > d.firmware_by, false) THEN 'lapsed'
  WHEN d.register_by IS NOT NULL AND d.registered_on IS NULL
    OR d.firmware_by IS NOT NULL AND d.firmware_on IS NULL
    OR d.evidence_needed AND NOT d.closed
    OR coalesce(${PROJECTED} >= d.limit_kwh, false)
    OR coalesce(d.lowest < d.temperature_lowest OR d.highest > d.temperature_highest, false)
    THEN 'at-risk'
  ELSE 'in-term' END`;

/** With $1 the firm, $2 the model and $3 the site or null, $4 the moment; alias w. */
export const STANDING = `(SELECT d.id, d.serial, d.model_code, d.site_id, d.site_reference,
    d.ends_on, d.registered_on, d.today, ${STATE} AS state,
    CASE WHEN d.registered_on IS NULL THEN d.register_by END AS open_until
  FROM (${DATED}) d) w`;

const CONDITIONS = [
  "($5::text IS NULL OR w.state = $5)",
  "($6::text IS NULL OR w.open_until IS NOT NULL)",
  "($7::date IS NULL OR w.open_until < $7::date)",
];

const valuesOf = (tx: FirmTransaction, filter: StandingFilter, now: Date): unknown[] => [
  ...[tx.firmId, filter.modelId ?? null, filter.siteId ?? null, now],
  ...[filter.state ?? null, filter.registration ?? null, filter.registerBefore ?? null],
];

export const WARRANTY_COLUMNS = ["serial", "model", "site", "registerBy", "endsOn"] as const;
const ORDERS: Readonly<Record<string, string>> = {
  serial: "w.serial",
  model: "w.model_code",
  site: "coalesce(w.site_reference, '')",
  registerBy: "coalesce(w.open_until::text, '9999')",
  endsOn: "coalesce(w.ends_on::text, '9999')",
};

/** Ids in the list's order, each with its place. */
export async function standingIds(
  tx: FirmTransaction,
  filter: StandingFilter & { sorting: Sorting; most: number },
  now: Date,
) {
  const { sorting, most } = filter;
  return sortedRows<{ id: string; state: Standing }>(tx, {
    ...{ select: "w.id, w.state", from: STANDING, where: CONDITIONS, id: "w.id" },
    values: valuesOf(tx, filter, now),
    by: ORDERS[sorting.column] ?? "w.serial",
    ...{ descending: sorting.descending, after: sorting.after, most },
  });
}

/** Ids in their own order, a page at a time. */
export async function standingPage(
  tx: FirmTransaction,
  filter: StandingFilter & { after?: string | undefined; most: number },
  now: Date,
): Promise<string[]> {
  const values = [...valuesOf(tx, filter, now), filter.after ?? null, filter.most];
  const rows = await tx.$queryRawUnsafe<{ id: string }[]>(
    `SELECT w.id FROM ${STANDING} WHERE ${CONDITIONS.join(" AND ")}
       AND ($8::uuid IS NULL OR w.id > $8::uuid) ORDER BY w.id LIMIT $9::int`,
    ...values,
  );
  return rows.map(({ id }) => id);
}

/** How many units stand how, and how many are still to be registered. */
export async function countStandings(
  tx: FirmTransaction,
  filter: Pick<StandingFilter, "modelId" | "siteId">,
  now: Date,
): Promise<{ state: Standing; units: number; unregistered: number }[]> {
  const values = valuesOf(tx, filter, now).slice(0, 4);
  return tx.$queryRawUnsafe(
    `SELECT w.state, count(*)::int AS units, count(w.open_until)::int AS unregistered
     FROM ${STANDING} GROUP BY w.state`,
    ...values,
  );
}
