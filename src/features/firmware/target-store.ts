import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface TargetFields {
  releaseId: string;
  targetKey: bigint;
  setAt: Date;
  dueOn: Date;
  setById: string;
}

export async function findTarget(tx: FirmTransaction, modelId: string) {
  return tx.firmwareTarget.findUnique({
    where: { firmId_modelId: { firmId: tx.firmId, modelId } },
    include: { release: true },
  });
}

/** False when the model has a target by now. */
export async function addTarget(
  tx: FirmTransaction,
  modelId: string,
  fields: TargetFields,
): Promise<boolean> {
  const { count } = await tx.firmwareTarget.createMany({
    data: [{ firmId: tx.firmId, id: uuidv7(), modelId, ...fields }],
    skipDuplicates: true,
  });
  return count === 1;
}

/** False when the target has another version by now. */
export async function moveTarget(
  tx: FirmTransaction,
  modelId: string,
  version: number,
  fields: TargetFields,
): Promise<boolean> {
  const { count } = await tx.firmwareTarget.updateMany({
    where: { firmId: tx.firmId, modelId, version },
    data: { ...fields, version: { increment: 1 } },
  });
  return count === 1;
}
