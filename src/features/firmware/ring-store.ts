import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { RingRule } from "./ring-schemas.ts";

export interface RingFields {
  name: string;
  position: number;
  updatedLeast: number;
  soakDays: number;
  failureMost: number;
  opensItself: boolean;
}

export async function listRings(tx: FirmTransaction) {
  const rows = await tx.firmwareRing.findMany({
    where: { firmId: tx.firmId },
    include: { _count: { select: { sites: true } } },
    orderBy: { position: "asc" },
  });
  return rows.map(({ _count, ...row }) => ({ ...row, siteCount: _count.sites }));
}

export async function findRing(tx: FirmTransaction, id: string) {
  return tx.firmwareRing.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** Undefined when the name or the place in the order is taken. */
export async function addRing(tx: FirmTransaction, fields: RingFields) {
  const [row] = await tx.firmwareRing.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields }],
    skipDuplicates: true,
  });
  return row;
}

/** False when it has another version by now. */
export async function editRing(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<RingFields>,
): Promise<boolean> {
  const { count } = await tx.firmwareRing.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

/** Puts sites into a ring, or out of any; how many of them the firm has. */
export async function putSitesIntoRing(
  tx: FirmTransaction,
  siteIds: readonly string[],
  ringId: string | null,
): Promise<number> {
  const { count } = await tx.site.updateMany({
    where: { firmId: tx.firmId, id: { in: [...siteIds] } },
    data: { ringId },
  });
  return count;
}

/**
 * Puts a share of the sites that a rule names into a ring. The order of a digest of site and ring
 * decides which, so that a larger share later takes the same ones and more.
 */
export async function putSitesByRule(
  tx: FirmTransaction,
  ringId: string,
  { region, modelId, percent, alsoFromOtherRings, tryOnly }: RingRule,
): Promise<{ matching: number; placed: number }> {
  const [row] = await tx.$queryRaw<{ matching: number; placed: number }[]>`WITH matching AS (
      SELECT s.id, row_number() OVER (ORDER BY md5(s.id::text || ${ringId}), s.id) AS place
      FROM site s WHERE s.firm_id = ${tx.firmId}::uuid AND s.archived_at IS NULL
        AND (s.ring_id IS NULL OR s.ring_id = ${ringId}::uuid OR ${alsoFromOtherRings})
        AND (${region ?? null}::text IS NULL OR s.region = ${region ?? null})
        AND (${modelId ?? null}::uuid IS NULL OR EXISTS (SELECT FROM unit u
          WHERE u.firm_id = s.firm_id AND u.site_id = s.id AND u.state = 'installed'
            AND u.model_id = ${modelId ?? null}::uuid))),
    chosen AS (SELECT id FROM matching
      WHERE place <= ceil((SELECT count(*) FROM matching) * ${percent}::numeric / 100)),
    changed AS (UPDATE site s SET ring_id = ${ringId}::uuid FROM chosen
      WHERE s.firm_id = ${tx.firmId}::uuid AND s.id = chosen.id AND NOT ${tryOnly}
        AND s.ring_id IS DISTINCT FROM ${ringId}::uuid)
    SELECT (SELECT count(*)::int FROM matching) AS matching,
      (SELECT count(*)::int FROM chosen) AS placed`;
  if (!row) throw new Error("a SELECT without FROM gives one row");
  return row;
}

export interface RingFigures {
  updated: number;
  failed: number;
  /** When the unit that made the number full was read at the level. */
  enoughAt: Date | null;
}

/**
 * Units of the ring that were first read at the target's level, or above, after the ring opened for
 * it, and updates of the release that failed there since.
 */
export async function ringFigures(
  tx: FirmTransaction,
  target: {
    modelId: string;
    ringId: string;
    releaseId: string;
    targetKey: bigint;
    openedAt: Date;
    updatedLeast: number;
  },
): Promise<RingFigures> {
  const [row] = await tx.$queryRaw<RingFigures[]>`WITH reached AS (
      SELECT min(g.read_at) AS at FROM site s
      JOIN unit u ON u.firm_id = s.firm_id AND u.site_id = s.id
        AND u.model_id = ${target.modelId}::uuid
      JOIN firmware_reading g ON g.firm_id = u.firm_id AND g.unit_id = u.id
        AND g.level_key >= ${target.targetKey}
      WHERE s.firm_id = ${tx.firmId}::uuid AND s.ring_id = ${target.ringId}::uuid
      GROUP BY u.id HAVING min(g.read_at) >= ${target.openedAt}::timestamptz)
    SELECT (SELECT count(*)::int FROM reached) AS updated,
      (SELECT count(*)::int FROM nonconformance n
        JOIN site s ON s.firm_id = n.firm_id AND s.id = n.site_id
        WHERE n.firm_id = ${tx.firmId}::uuid AND n.kind = 'firmware-update'
          AND n.release_id = ${target.releaseId}::uuid AND s.ring_id = ${target.ringId}::uuid
          AND n.opened_at >= ${target.openedAt}::timestamptz) AS failed,
      (SELECT at FROM reached ORDER BY at OFFSET ${target.updatedLeast - 1} LIMIT 1) AS "enoughAt"`;
  if (!row) throw new Error("a SELECT without FROM gives one row");
  return row;
}
