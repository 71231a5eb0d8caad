import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface ReleaseFields {
  modelId: string;
  level: string;
  levelKey: bigint;
  severity: string;
  releasedOn: Date;
  notes?: string | null;
  fileSha256?: string | null;
  hardwareRevisions?: string[];
  fromMin?: string | null;
  fromBelow?: string | null;
  companions?: object[];
  deadlineDays?: number | null;
  fileName?: string | null;
  fileBytes?: number | null;
}

export interface ReleaseFilter {
  modelId?: string;
  severity?: string;
  withdrawn?: boolean;
  after?: string;
  most: number;
}

/** Undefined when the model has a release of this level already. */
export async function addRelease(tx: FirmTransaction, fields: ReleaseFields) {
  const [row] = await tx.firmwareRelease.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields }],
    skipDuplicates: true,
  });
  return row;
}

export async function listReleases(tx: FirmTransaction, filter: ReleaseFilter) {
  const { modelId, severity, withdrawn, after, most } = filter;
  return tx.firmwareRelease.findMany({
    where: {
      firmId: tx.firmId,
      ...(modelId ? { modelId } : {}),
      ...(severity ? { severity } : {}),
      ...(withdrawn === undefined ? {} : { withdrawnOn: withdrawn ? { not: null } : null }),
      ...(after ? { id: { gt: after } } : {}),
    },
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function findRelease(tx: FirmTransaction, id: string) {
  return tx.firmwareRelease.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** Undefined when the row has another version by now. */
export async function editRelease(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<Omit<ReleaseFields, "modelId" | "level" | "levelKey">>,
) {
  const [row] = await tx.firmwareRelease.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return row;
}

/** Undefined when it was withdrawn before. */
export async function withdrawRelease(
  tx: FirmTransaction,
  id: string,
  day: string,
  reason: string | undefined,
) {
  const [row] = await tx.firmwareRelease.updateManyAndReturn({
    where: { firmId: tx.firmId, id, withdrawnOn: null },
    data: {
      ...{ withdrawnOn: new Date(day), withdrawnReason: reason ?? null },
      version: { increment: 1 },
    },
  });
  return row;
}
