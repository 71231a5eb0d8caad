import type { FirmTransaction } from "../../db/scope.ts";

/** Jobs that stand closed and were closed in that time. */
export async function closedJobs(
  tx: FirmTransaction,
  { from, before, most }: { from: Date; before: Date; most: number },
) {
  const rows = await tx.closeOut.findMany({
    where: {
      ...{ firmId: tx.firmId, closedAt: { gte: from, lt: before } },
      closedJobs: { some: {} },
    },
    select: { closedAt: true, job: { select: { id: true, reference: true, title: true } } },
    orderBy: [{ closedAt: "asc" }, { id: "asc" }],
    take: most,
  });
  return rows.map(({ job, closedAt }) => ({ ...job, closedAt }));
}

/** Of these jobs those with an audit finding, and its id. */
export async function findingsOf(
  tx: FirmTransaction,
  jobIds: readonly string[],
): Promise<Map<string, string>> {
  const rows = await tx.nonconformance.findMany({
    where: { firmId: tx.firmId, kind: "audit", jobId: { in: [...jobIds] } },
    select: { id: true, jobId: true },
    distinct: ["jobId"],
    take: jobIds.length,
  });
  return new Map(rows.map(({ id, jobId }) => [jobId as string, id]));
}
