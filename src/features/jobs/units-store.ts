import type { FirmTransaction } from "../../db/scope.ts";

/** Units of the firm by id, each with its product model and the site where it is installed. */
export async function findUnits(tx: FirmTransaction, ids: string[]) {
  return tx.unit.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: { model: true, site: { select: { id: true, reference: true } } },
  });
}

export type CandidateUnit = Awaited<ReturnType<typeof findUnits>>[number];

/** Puts the units behind those that are on the job already; needs the job's lock. */
export async function appendUnits(
  tx: FirmTransaction,
  jobId: string,
  unitIds: string[],
): Promise<void> {
  const { _max } = await tx.jobUnit.aggregate({
    where: { firmId: tx.firmId, jobId },
    _max: { position: true },
  });
  const first = (_max.position ?? 0) + 1;
  await tx.jobUnit.createMany({
    data: unitIds.map((unitId, index) => ({
      firmId: tx.firmId,
      jobId,
      unitId,
      position: first + index,
    })),
  });
}

export async function hasAnswersFor(
  tx: FirmTransaction,
  jobId: string,
  unitIds: string[],
): Promise<boolean> {
  const row = await tx.answer.findFirst({
    where: { firmId: tx.firmId, jobId, subject: { in: unitIds } },
    select: { id: true },
  });
  return row !== null;
}

export async function removeUnit(
  tx: FirmTransaction,
  jobId: string,
  unitId: string,
): Promise<void> {
  await tx.jobUnit.delete({
    where: { firmId_jobId_unitId: { firmId: tx.firmId, jobId, unitId } },
  });
}

/** Units behind the gap move up by one; through negative places, since a place is taken once. */
export async function closeGap(
  tx: FirmTransaction,
  jobId: string,
  gapPosition: number,
): Promise<void> {
  await tx.$executeRaw`UPDATE job_unit SET position = 1 - position
    WHERE firm_id = ${tx.firmId}::uuid AND job_id = ${jobId}::uuid AND position > ${gapPosition}`;
  await tx.$executeRaw`UPDATE job_unit SET position = -position
    WHERE firm_id = ${tx.firmId}::uuid AND job_id = ${jobId}::uuid AND position < 0`;
}
