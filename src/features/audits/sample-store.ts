// Samples as they were drawn, and what was seen of their jobs since.
import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";

export interface SampleFields {
  periodFrom: Date;
  periodTo: Date;
  qualityLimit: number;
  seed: string;
  lot: string[];
  letter: string;
  accept: number;
  auditAccessId?: string;
  keptById: string;
  keptAt: Date;
}

/** The id; that of the one before where the same person kept the same draw already. */
export async function addSample(
  tx: FirmTransaction,
  fields: SampleFields,
  jobs: readonly { id: string; closedAt: Date }[],
): Promise<{ id: string; isNew: boolean }> {
  const { firmId } = tx;
  const reference = await nextReference(tx, "A", fields.keptAt);
  const [made] = await tx.auditSample.createManyAndReturn({
    data: [{ firmId, id: uuidv7(), reference, ...fields }],
    skipDuplicates: true,
    select: { id: true },
  });
  if (!made) {
    const { keptById, periodFrom, periodTo, qualityLimit, seed } = fields;
    const same = { firmId, keptById, periodFrom, periodTo, qualityLimit, seed };
    const before = await tx.auditSample.findFirstOrThrow({ where: same, select: { id: true } });
    return { id: before.id, isNew: false };
  }
  await tx.auditSampleJob.createMany({
    data: jobs.map(({ id: jobId, closedAt }, index) => ({
      ...{ firmId, sampleId: made.id, jobId, position: index + 1, closedAt },
    })),
  });
  return { id: made.id, isNew: true };
}

const NAMED = { keptBy: { select: { name: true } } } as const;

export async function findSample(tx: FirmTransaction, id: string) {
  return tx.auditSample.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: NAMED,
  });
}
export type SampleRow = NonNullable<Awaited<ReturnType<typeof findSample>>>;

/** The latest first. */
export async function listSamples(
  tx: FirmTransaction,
  { before, most }: { before?: string | undefined; most: number },
): Promise<SampleRow[]> {
  return tx.auditSample.findMany({
    where: { firmId: tx.firmId, ...(before ? { id: { lt: before } } : {}) },
    include: NAMED,
    orderBy: { id: "desc" },
    take: most,
  });
}

/** The drawn jobs in the order of the draw, each with its looks and findings, the latest first. */
export async function drawnJobs(tx: FirmTransaction, sampleIds: readonly string[], most: number) {
  return tx.auditSampleJob.findMany({
    where: { firmId: tx.firmId, sampleId: { in: [...sampleIds] } },
    include: {
      job: { select: { reference: true, title: true, state: true, closeOutId: true } },
      looks: {
        include: { person: { select: { name: true } } },
        orderBy: { id: "desc" },
        take: LOOKS_SHOWN,
      },
      findings: {
        select: { id: true, reference: true, state: true },
        orderBy: { id: "asc" },
        take: FINDINGS_SHOWN,
      },
    },
    orderBy: [{ sampleId: "asc" }, { position: "asc" }],
    take: most,
  });
}
export type DrawnJob = Awaited<ReturnType<typeof drawnJobs>>[number];

const LOOKS_SHOWN = 20;
const FINDINGS_SHOWN = 20;

export async function isDrawn(
  tx: FirmTransaction,
  sampleId: string,
  jobId: string,
): Promise<boolean> {
  const { firmId } = tx;
  const where = { firmId_sampleId_jobId: { firmId, sampleId, jobId } };
  return (await tx.auditSampleJob.findUnique({ where, select: { jobId: true } })) !== null;
}

export async function addLook(
  tx: FirmTransaction,
  look: { sampleId: string; jobId: string; personId: string; remark: string | null; at: Date },
) {
  return tx.auditSampleLook.create({
    data: { firmId: tx.firmId, id: uuidv7(), ...look },
    include: { person: { select: { name: true } } },
  });
}

export interface SampleCounts {
  sampleId: string;
  size: number;
  looked: number;
  found: number;
}

/** By sample: how many jobs were drawn, looked at and found wanting. */
export async function countSamples(
  tx: FirmTransaction,
  ids: readonly string[],
): Promise<Map<string, SampleCounts>> {
  const rows = await tx.$queryRaw<SampleCounts[]>`
    SELECT j.sample_id AS "sampleId", count(*)::int AS size,
      count(*) FILTER (WHERE l.is_there OR n.is_there)::int AS looked,
      count(*) FILTER (WHERE n.is_there)::int AS found
    FROM audit_sample_job j
    CROSS JOIN LATERAL (SELECT EXISTS (SELECT FROM audit_sample_look l WHERE l.firm_id = j.firm_id
      AND l.sample_id = j.sample_id AND l.job_id = j.job_id) AS is_there) l
    CROSS JOIN LATERAL (SELECT EXISTS (SELECT FROM nonconformance n WHERE n.firm_id = j.firm_id
      AND n.audit_sample_id = j.sample_id AND n.job_id = j.job_id) AS is_there) n
    WHERE j.firm_id = ${tx.firmId}::uuid AND j.sample_id = ANY (${[...ids]}::uuid[])
    GROUP BY 1`;
  return new Map(rows.map((row) => [row.sampleId, row]));
}
