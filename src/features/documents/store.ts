import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface DocumentFields {
  jobId: string;
  sha256: string;
  mediaType: string;
  bytes: number;
  name: string;
  personId: string;
}

const WITH_NAME = { person: { select: { name: true } } } as const;

/** One that was removed comes back under the new name. */
export async function keepDocument(
  tx: FirmTransaction,
  fields: DocumentFields,
  receivedAt: Date,
): Promise<"added" | "brought-back" | "there"> {
  const { count } = await tx.jobDocument.createMany({
    data: [{ firmId: tx.firmId, id: uuidv7(), receivedAt, ...fields }],
    skipDuplicates: true,
  });
  if (count === 1) return "added";
  const { jobId, sha256, name, personId } = fields;
  const back = await tx.jobDocument.updateMany({
    where: { firmId: tx.firmId, jobId, sha256, removedAt: { not: null } },
    data: { removedAt: null, removedById: null, name, personId, receivedAt },
  });
  return back.count === 1 ? "brought-back" : "there";
}

/** Undefined where the job has none of this hash, or no longer. */
export async function findDocument(tx: FirmTransaction, jobId: string, sha256: string) {
  const row = await tx.jobDocument.findUnique({
    where: { firmId_jobId_sha256: { firmId: tx.firmId, jobId, sha256 } },
    include: WITH_NAME,
  });
  return row?.removedAt === null ? row : undefined;
}

export type DocumentRow = NonNullable<Awaited<ReturnType<typeof findDocument>>>;

export async function listDocuments(
  tx: FirmTransaction,
  jobId: string,
  page: { after?: string; most: number },
): Promise<DocumentRow[]> {
  return tx.jobDocument.findMany({
    where: {
      firmId: tx.firmId,
      jobId,
      removedAt: null,
      ...(page.after ? { id: { gt: page.after } } : {}),
    },
    include: WITH_NAME,
    orderBy: { id: "asc" },
    take: page.most,
  });
}

export async function countDocuments(tx: FirmTransaction, jobId: string): Promise<number> {
  return tx.jobDocument.count({ where: { firmId: tx.firmId, jobId } });
}

/** False when it is removed already. */
export async function markRemoved(
  tx: FirmTransaction,
  id: string,
  personId: string,
  now: Date,
): Promise<boolean> {
  const { count } = await tx.jobDocument.updateMany({
    where: { firmId: tx.firmId, id, removedAt: null },
    data: { removedAt: now, removedById: personId },
  });
  return count === 1;
}
