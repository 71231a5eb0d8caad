// What lies inside a scope, reckoned by hand from the tables as the superuser reads them, and not
// by the functions that are tried.
import type { NewAccess } from "../../src/features/audit-access/schemas.ts";
import type { AuditStage } from "./audit-stage.ts";

const DAYS = `SELECT j.id AS job_id, (c.closed_at AT TIME ZONE f.time_zone)::date::text AS day
     FROM job j JOIN firm f ON f.id = j.firm_id JOIN close_out c ON c.id = j.close_out_id
     WHERE j.firm_id = $1
     UNION ALL SELECT v.job_id, (v.starts_at AT TIME ZONE f.time_zone)::date::text
     FROM visit v JOIN firm f ON f.id = v.firm_id WHERE v.firm_id = $1 AND v.state = 'booked'`;

const VISITS = "SELECT id, job_id FROM visit WHERE firm_id = $1";

const idsOf = (rows: readonly Record<string, string>[]) => rows.map(({ id = "" }) => id);

export interface Inside {
  site_id: Set<string>;
  job_id: Set<string>;
  unit_id: Set<string>;
  customer_id: Set<string>;
  visit_id: Set<string>;
}

/** What lies inside, reckoned row by row. */
export async function insideOf(
  { rows, demo }: Pick<AuditStage, "rows" | "demo">,
  { siteIds, modelIds, period }: NewAccess["scope"],
): Promise<Inside> {
  const all = (sql: string) => rows(sql, [demo.firmId]);
  const units = await all("SELECT id, site_id, model_id FROM unit WHERE firm_id = $1");
  const modelOf = new Map(units.map((unit) => [unit.id, unit.model_id]));
  const pairs = await all("SELECT job_id, unit_id FROM job_unit WHERE firm_id = $1");
  const days = await all(DAYS);
  const jobs = (await all("SELECT id, site_id FROM job WHERE firm_id = $1")).filter(
    ({ id, site_id = "" }) =>
      (!siteIds || siteIds.includes(site_id)) &&
      (!modelIds ||
        pairs.some((p) => p.job_id === id && modelIds.includes(modelOf.get(p.unit_id) ?? ""))) &&
      (!period ||
        days.some((d) => d.job_id === id && `${d.day}` >= period.from && `${d.day}` <= period.to)),
  );
  const job_id = new Set(idsOf(jobs));
  const own = (unit: Record<string, string>) =>
    (!siteIds || siteIds.includes(unit.site_id ?? "")) &&
    (!modelIds || modelIds.includes(unit.model_id ?? ""));
  const loose = period ? [] : units.filter(own);
  const site_id = new Set(jobs.map(({ site_id: id = "" }) => id));
  const sites = await all("SELECT id, customer_id FROM site WHERE firm_id = $1");
  for (const { id = "" } of period ? [] : sites) {
    const isNamed = !siteIds || siteIds.includes(id);
    if (isNamed && (!modelIds || loose.some((unit) => unit.site_id === id))) site_id.add(id);
  }
  return {
    ...{ site_id, job_id },
    unit_id: new Set([
      ...pairs.filter((p) => job_id.has(p.job_id ?? "")).map((p) => p.unit_id ?? ""),
      ...idsOf(loose),
    ]),
    customer_id: new Set(
      sites.filter(({ id = "" }) => site_id.has(id)).map((site) => site.customer_id ?? ""),
    ),
    visit_id: new Set(idsOf((await all(VISITS)).filter((v) => job_id.has(v.job_id ?? "")))),
  };
}
