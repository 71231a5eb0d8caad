import type { FirmTransaction } from "../../db/scope.ts";

export interface SiteUnit {
  id: string;
  serial: string;
  modelId: string;
  modelCode: string;
  scheme: string;
  hardwareRevision: string | null;
  level: string | null;
  targetLevel: string | null;
}

/** The units installed at a site, each with the level of the target that counts for it there. */
export async function unitsWithTargets(tx: FirmTransaction, siteId: string): Promise<SiteUnit[]> {
  return tx.$queryRaw<SiteUnit[]>`SELECT u.id, u.serial, u.model_id AS "modelId",
      m.code AS "modelCode", m.firmware_scheme AS scheme,
      u.hardware_revision AS "hardwareRevision", u.firmware_level AS level,
      t.level AS "targetLevel"
    FROM unit u
    JOIN site s ON s.firm_id = u.firm_id AND s.id = u.site_id
    JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    LEFT JOIN LATERAL (
      SELECT r.level FROM firmware_target t
      JOIN firmware_release r ON r.firm_id = t.firm_id AND r.id = t.release_id
        AND r.withdrawn_on IS NULL
      WHERE t.firm_id = ${tx.firmId}::uuid AND t.model_id = u.model_id AND t.state <> 'waiting'
        AND (t.ring_id IS NULL OR t.ring_id = s.ring_id)
        AND (t.region IS NULL OR t.region = s.region)
        AND (r.hardware_revisions = '{}' OR u.hardware_revision IS NULL
          OR u.hardware_revision = ANY (r.hardware_revisions))
        AND (u.firmware_key IS NULL OR u.firmware_key < t.target_key)
      ORDER BY (t.ring_id IS NOT NULL)::int * 2 + (t.region IS NOT NULL)::int DESC LIMIT 1) t
      ON true
    WHERE u.firm_id = ${tx.firmId}::uuid AND u.site_id = ${siteId}::uuid AND u.state = 'installed'
    ORDER BY u.serial`;
}

/** Whether any release that stands says over what, or beside what, it may be installed. */
export async function hasConditions(tx: FirmTransaction): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ found: boolean }[]>`SELECT EXISTS (
    SELECT FROM firmware_release WHERE firm_id = ${tx.firmId}::uuid AND withdrawn_on IS NULL
      AND (from_min IS NOT NULL OR from_below IS NOT NULL OR companions <> '[]')) AS found`;
  return row?.found === true;
}

export async function releasesOf(tx: FirmTransaction, modelIds: readonly string[]) {
  return tx.firmwareRelease.findMany({
    where: { firmId: tx.firmId, modelId: { in: [...modelIds] } },
    orderBy: { levelKey: "asc" },
  });
}
