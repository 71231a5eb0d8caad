import type { FirmTransaction } from "../../db/scope.ts";

export interface SiteChoice {
  id: string;
  reference: string;
  customer: string;
  address: string;
}

/** Sites whose reference, address or customer holds the text; the newest first without one. */
export async function findSiteChoices(
  tx: FirmTransaction,
  text: string | undefined,
  most: number,
): Promise<SiteChoice[]> {
  return tx.$queryRaw<SiteChoice[]>`SELECT s.id, s.reference, c.name AS customer,
      concat_ws(', ', s.name, s.address_line, s.locality || ' ' || s.postcode) AS address
    FROM site s JOIN customer c ON c.firm_id = s.firm_id AND c.id = s.customer_id
    WHERE s.firm_id = ${tx.firmId}::uuid AND s.archived_at IS NULL
      AND (${text ?? null}::text IS NULL OR position(lower(${text ?? ""}) IN lower(concat_ws(' ',
        s.reference, s.name, s.address_line, s.locality, s.postcode, c.name, c.reference))) > 0)
    ORDER BY s.id DESC LIMIT ${most}`;
}

export async function readSiteChoice(tx: FirmTransaction, id: string) {
  return tx.site.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: { customer: { select: { id: true, name: true } } },
  });
}

export interface PlanChoice {
  id: string;
  code: string;
  title: string;
  number: number;
}

/** Plans with their latest published version. */
export async function publishedPlans(tx: FirmTransaction, most: number): Promise<PlanChoice[]> {
  return tx.$queryRaw<PlanChoice[]>`SELECT p.id, p.code, p.title, max(v.number)::int AS number
    FROM plan p JOIN plan_version v ON v.firm_id = p.firm_id AND v.plan_id = p.id
      AND v.state = 'published'
    WHERE p.firm_id = ${tx.firmId}::uuid
    GROUP BY p.id, p.code, p.title ORDER BY p.title LIMIT ${most}`;
}

export interface UnitChoice {
  id: string;
  serial: string;
  modelCode: string;
  place: string | null;
  atSite: boolean;
}

/** Units at the site, and sound ones in stock that no open job has. */
export async function unitChoices(
  tx: FirmTransaction,
  siteId: string,
  most: number,
): Promise<UnitChoice[]> {
  return tx.$queryRaw<UnitChoice[]>`SELECT u.id, u.serial, m.code AS "modelCode",
      u.stock_place AS place, u.state = 'installed' AS "atSite"
    FROM unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    WHERE u.firm_id = ${tx.firmId}::uuid AND (u.site_id = ${siteId}::uuid
      OR u.state = 'received' AND u.quarantined_at IS NULL AND NOT EXISTS (
        SELECT FROM job_unit ju JOIN job j ON j.firm_id = ju.firm_id AND j.id = ju.job_id
        WHERE ju.firm_id = u.firm_id AND ju.unit_id = u.id AND j.state = 'open'))
    ORDER BY u.state = 'installed' DESC, m.code, u.stock_place, u.serial LIMIT ${most}`;
}

export async function bookableInstruments(tx: FirmTransaction, most: number) {
  return tx.instrument.findMany({
    where: { firmId: tx.firmId, retiredOn: null },
    select: { id: true, reference: true, name: true },
    orderBy: { reference: "asc" },
    take: most,
  });
}
