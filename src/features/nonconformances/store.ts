import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";

export interface NonconformanceFields {
  kind: string;
  title: string;
  siteId?: string | null;
  unitId?: string | null;
  jobId?: string | null;
  releaseId?: string | null;
  auditSampleId?: string | null;
  cause?: string | null;
  containment?: string | null;
  correction?: string | null;
  effectCheck?: string | null;
  effectDueOn?: Date | null;
  effectById?: string | null;
  dueOn?: Date | null;
  ownerId?: string | null;
  openedById?: string | null;
}

/** Whether each site, unit and job that it is about is there to be seen. */
export async function seesAll(
  tx: FirmTransaction,
  { siteId, unitId, jobId }: Pick<NonconformanceFields, "siteId" | "unitId" | "jobId">,
): Promise<boolean> {
  const { firmId } = tx;
  const select = { id: true } as const;
  const [site, unit, job] = [
    siteId ? await tx.site.findUnique({ where: { firmId_id: { firmId, id: siteId } }, select }) : 1,
    unitId ? await tx.unit.findUnique({ where: { firmId_id: { firmId, id: unitId } }, select }) : 1,
    jobId ? await tx.job.findUnique({ where: { firmId_id: { firmId, id: jobId } }, select }) : 1,
  ];
  return site !== null && unit !== null && job !== null;
}

/** Undefined when the same update of the same unit is one already. */
export async function addNonconformance(
  tx: FirmTransaction,
  fields: NonconformanceFields,
  now: Date,
) {
  const reference = await nextReference(tx, "N", now);
  const [row] = await tx.nonconformance.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), reference, ...fields, openedAt: now }],
    skipDuplicates: true,
  });
  return row;
}

export interface NonconformanceFilter {
  state?: string;
  kind?: string;
  siteId?: string;
  releaseId?: string;
  /** Not closed, and due before that day. */
  dueBefore?: Date;
  /** Not closed, and its effect to be seen before that day. */
  effectBefore?: Date;
  before?: string;
  most: number;
}

/** The latest first. */
export async function listNonconformances(tx: FirmTransaction, filter: NonconformanceFilter) {
  const { before, most, dueBefore, effectBefore, ...where } = filter;
  const given = Object.entries(where).filter(([, value]) => value !== undefined);
  return tx.nonconformance.findMany({
    where: {
      ...{ firmId: tx.firmId, ...Object.fromEntries(given) },
      ...(before ? { id: { lt: before } } : {}),
      ...(dueBefore || effectBefore ? { NOT: { state: "closed" } } : {}),
      ...(dueBefore ? { dueOn: { lt: dueBefore } } : {}),
      ...(effectBefore ? { effectDueOn: { lt: effectBefore } } : {}),
    },
    orderBy: { id: "desc" },
    take: most,
  });
}

/** Not closed and due by that day or before, the longest due first. */
export async function nonconformancesDue(tx: FirmTransaction, day: string, most: number) {
  return tx.nonconformance.findMany({
    where: { firmId: tx.firmId, state: { not: "closed" }, dueOn: { lte: new Date(day) } },
    orderBy: [{ dueOn: "asc" }, { id: "asc" }],
    take: most,
  });
}

/** Not closed, their effect to be seen by that day or before, the longest due first. */
export async function effectsDue(tx: FirmTransaction, day: string, most: number) {
  return tx.nonconformance.findMany({
    where: { firmId: tx.firmId, state: { not: "closed" }, effectDueOn: { lte: new Date(day) } },
    include: { effectBy: { select: { name: true } } },
    orderBy: [{ effectDueOn: "asc" }, { id: "asc" }],
    take: most,
  });
}

export async function findNonconformance(tx: FirmTransaction, id: string) {
  return tx.nonconformance.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** Undefined when the row has another version by now. */
export async function editNonconformance(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<NonconformanceFields> & { state?: string; closedAt?: Date | null },
) {
  const [row] = await tx.nonconformance.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return row;
}

/** Of the job's units those that a reading on this very job left below their target. */
export async function unitsLeftBelow(tx: FirmTransaction, jobId: string) {
  return tx.$queryRaw<{ unitId: string; siteId: string; releaseId: string; level: string }[]>`
    SELECT u.id AS "unitId", s.id AS "siteId", t.release_id AS "releaseId", g.level
    FROM job j
    JOIN job_unit k ON k.firm_id = j.firm_id AND k.job_id = j.id
    JOIN unit u ON u.firm_id = k.firm_id AND u.id = k.unit_id
    JOIN site s ON s.firm_id = j.firm_id AND s.id = j.site_id
    JOIN LATERAL (SELECT r.level, r.level_key FROM firmware_reading r
      WHERE r.firm_id = j.firm_id AND r.unit_id = u.id AND r.job_id = j.id
      ORDER BY r.read_at DESC, r.id DESC LIMIT 1) g ON true
    JOIN LATERAL (SELECT t.release_id, t.target_key FROM firmware_target t
      JOIN firmware_release r ON r.firm_id = t.firm_id AND r.id = t.release_id
        AND r.withdrawn_on IS NULL
      WHERE t.firm_id = j.firm_id AND t.model_id = u.model_id AND t.state <> 'waiting'
        AND (t.ring_id IS NULL OR t.ring_id = s.ring_id)
        AND (t.region IS NULL OR t.region = s.region)
      ORDER BY (t.ring_id IS NOT NULL)::int * 2 + (t.region IS NOT NULL)::int DESC LIMIT 1) t
      ON true
    WHERE j.firm_id = ${tx.firmId}::uuid AND j.id = ${jobId}::uuid AND j.kind = 'firmware'
      AND g.level_key < t.target_key`;
}

/** The release that counts for a unit where it stands; undefined where none does. */
export async function releaseFor(
  tx: FirmTransaction,
  unitId: string,
): Promise<{ releaseId: string; level: string; serial: string; siteId: string } | undefined> {
  const [row] = await tx.$queryRaw<
    { releaseId: string; level: string; serial: string; siteId: string }[]
  >`SELECT t.release_id AS "releaseId", r.level, u.serial, s.id AS "siteId"
    FROM unit u JOIN site s ON s.firm_id = u.firm_id AND s.id = u.site_id
    JOIN firmware_target t ON t.firm_id = u.firm_id AND t.model_id = u.model_id
      AND t.state <> 'waiting' AND (t.ring_id IS NULL OR t.ring_id = s.ring_id)
      AND (t.region IS NULL OR t.region = s.region)
    JOIN firmware_release r ON r.firm_id = t.firm_id AND r.id = t.release_id
      AND r.withdrawn_on IS NULL
    WHERE u.firm_id = ${tx.firmId}::uuid AND u.id = ${unitId}::uuid
    ORDER BY (t.ring_id IS NOT NULL)::int * 2 + (t.region IS NOT NULL)::int DESC LIMIT 1`;
  return row;
}
