import type { FirmTransaction } from "../../db/scope.ts";

/**
 * Sites by the people who are booked for the site's latest visit: "their" sites, where a notice
 * about a site goes to whoever was there last or goes there next.
 */
export async function sitesByPerson(tx: FirmTransaction): Promise<Map<string, Set<string>>> {
  const rows = await tx.$queryRaw<{ siteId: string; personId: string }[]>`
    SELECT DISTINCT l.site_id AS "siteId", b.person_id AS "personId"
    FROM (SELECT DISTINCT ON (j.site_id) j.site_id, v.id FROM visit v
      JOIN job j ON j.firm_id = v.firm_id AND j.id = v.job_id
      WHERE v.firm_id = ${tx.firmId}::uuid AND v.state = 'booked'
      ORDER BY j.site_id, v.starts_at DESC, v.id DESC) l
    JOIN visit_booking b ON b.firm_id = ${tx.firmId}::uuid AND b.visit_id = l.id
    WHERE b.person_id IS NOT NULL`;
  const sites = new Map<string, Set<string>>();
  for (const { siteId, personId } of rows) {
    const own = sites.get(personId) ?? new Set();
    own.add(siteId);
    sites.set(personId, own);
  }
  return sites;
}

/** What a person is booked for between two moments. */
export async function bookedFor(
  tx: FirmTransaction,
  personId: string,
  span: { from: Date; to: Date },
): Promise<{ startsAt: Date; endsAt: Date }[]> {
  return tx.visitBooking.findMany({
    where: { firmId: tx.firmId, personId, startsAt: { lt: span.to }, endsAt: { gt: span.from } },
    select: { startsAt: true, endsAt: true },
    orderBy: { startsAt: "asc" },
  });
}
