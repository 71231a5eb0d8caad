import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

/** Where a target counts: everywhere with neither, else in the ring, the region, or both. */
export interface TargetScope {
  ringId: string | null;
  region: string | null;
}

export const EVERYWHERE: TargetScope = { ringId: null, region: null };

export type TargetState = "waiting" | "open" | "held" | "passed";

export interface TargetFields {
  releaseId: string;
  targetKey: bigint;
  setAt: Date;
  dueOn: Date;
  setById: string;
  state?: TargetState;
  openedAt?: Date | null;
  heldReason?: string | null;
}

export async function findTarget(tx: FirmTransaction, modelId: string, scope = EVERYWHERE) {
  return tx.firmwareTarget.findFirst({
    where: { firmId: tx.firmId, modelId, ...scope },
    include: { release: true },
  });
}

export type TargetRow = NonNullable<Awaited<ReturnType<typeof findTarget>>>;

export async function findTargetById(tx: FirmTransaction, id: string) {
  return tx.firmwareTarget.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: { release: true, ring: true },
  });
}

/** All targets of a model: the one for everywhere first, rings in their order. */
export async function targetsOf(tx: FirmTransaction, modelId: string) {
  return tx.firmwareTarget.findMany({
    where: { firmId: tx.firmId, modelId },
    include: { release: true, ring: true },
    orderBy: [{ ring: { position: "asc" } }, { region: "asc" }],
  });
}

/** False when there is a target of this scope by now. */
export async function addTarget(
  tx: FirmTransaction,
  modelId: string,
  scope: TargetScope,
  fields: TargetFields,
): Promise<boolean> {
  const { count } = await tx.firmwareTarget.createMany({
    data: [{ firmId: tx.firmId, id: uuidv7(), modelId, ...scope, ...fields }],
    skipDuplicates: true,
  });
  return count === 1;
}

/** False when the target has another version by now. */
export async function moveTarget(
  tx: FirmTransaction,
  id: string,
  version: number,
  fields: Partial<TargetFields>,
): Promise<boolean> {
  const { count } = await tx.firmwareTarget.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...fields, version: { increment: 1 } },
  });
  return count === 1;
}

export async function removeTarget(tx: FirmTransaction, id: string): Promise<void> {
  await tx.firmwareTarget.deleteMany({ where: { firmId: tx.firmId, id } });
}

/** Targets of rings that are open: those that may have to be stopped, or may be passed. */
export async function openRingTargets(tx: FirmTransaction) {
  return tx.firmwareTarget.findMany({
    where: { firmId: tx.firmId, ringId: { not: null }, state: "open" },
    include: { release: true, ring: true },
    orderBy: { id: "asc" },
  });
}
