import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

const WITH_FILES = {
  export: { select: { fileName: true, state: true, sha256: true } },
  document: { select: { name: true, sha256: true, jobId: true } },
} as const;

export interface EvidenceFields {
  claimId: string;
  exportId: string | null;
  documentId: string | null;
  addedById: string;
  addedAt: Date;
}

/** Undefined when the claim has it already. */
export async function addClaimEvidence(tx: FirmTransaction, fields: EvidenceFields) {
  const [row] = await tx.warrantyClaimEvidence.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields }],
    skipDuplicates: true,
    select: { id: true },
  });
  return row?.id;
}

/** In the order in which it was attached. */
export async function listClaimEvidence(tx: FirmTransaction, claimId: string, most: number) {
  return tx.warrantyClaimEvidence.findMany({
    where: { firmId: tx.firmId, claimId },
    include: WITH_FILES,
    orderBy: { id: "asc" },
    take: most,
  });
}

export type EvidenceRow = Awaited<ReturnType<typeof listClaimEvidence>>[number];

/** False where the claim has no such piece. */
export async function removeClaimEvidence(tx: FirmTransaction, claimId: string, id: string) {
  const { count } = await tx.warrantyClaimEvidence.deleteMany({
    where: { firmId: tx.firmId, claimId, id },
  });
  return count === 1;
}

export async function findDocumentById(tx: FirmTransaction, id: string) {
  return tx.jobDocument.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id }, removedAt: null },
    select: { id: true, sha256: true },
  });
}

export interface DocumentChoice {
  id: string;
  name: string;
  reference: string;
}

/** Documents of the jobs that have the unit, the latest first. */
export async function documentChoices(
  tx: FirmTransaction,
  unitId: string,
  most: number,
): Promise<DocumentChoice[]> {
  const rows = await tx.jobDocument.findMany({
    where: { firmId: tx.firmId, removedAt: null, job: { units: { some: { unitId } } } },
    select: { id: true, name: true, job: { select: { reference: true } } },
    orderBy: { id: "desc" },
    take: most,
  });
  return rows.map(({ id, name, job }) => ({ id, name, reference: job.reference }));
}
