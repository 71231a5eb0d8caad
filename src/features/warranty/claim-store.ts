import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";

interface ClaimFields {
  unitId: string;
  jobId: string | null;
  fault: string;
  createdById: string;
}

export async function addClaim(tx: FirmTransaction, fields: ClaimFields, now: Date) {
  const reference = await nextReference(tx, "W", now);
  return tx.warrantyClaim.create({
    data: { firmId: tx.firmId, id: uuidv7(), reference, ...fields, createdAt: now },
  });
}

export type ClaimRow = Awaited<ReturnType<typeof addClaim>>;

export async function findClaim(tx: FirmTransaction, id: string): Promise<ClaimRow | null> {
  return tx.warrantyClaim.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

export interface ClaimFilter {
  state?: string | undefined;
  unitId?: string | undefined;
  before?: string | undefined;
  most: number;
}

/** The latest first. */
export async function listClaims(tx: FirmTransaction, filter: ClaimFilter): Promise<ClaimRow[]> {
  const { state, unitId, before, most } = filter;
  return tx.warrantyClaim.findMany({
    where: {
      firmId: tx.firmId,
      ...(state ? { state } : {}),
      ...(unitId ? { unitId } : {}),
      ...(before ? { id: { lt: before } } : {}),
    },
    orderBy: { id: "desc" },
    take: most,
  });
}

/** Undefined when the claim has another version by now. */
export async function moveClaim(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<Omit<ClaimRow, "firmId" | "id" | "version">>,
): Promise<ClaimRow | undefined> {
  const [row] = await tx.warrantyClaim.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return row;
}
