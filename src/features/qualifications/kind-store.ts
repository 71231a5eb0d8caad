import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export async function listKinds(
  tx: FirmTransaction,
  { archived, after, most }: { archived: boolean; after?: string; most: number },
) {
  return tx.qualificationKind.findMany({
    where: {
      firmId: tx.firmId,
      archivedAt: archived ? { not: null } : null,
      ...(after ? { id: { gt: after } } : {}),
    },
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function findKind(tx: FirmTransaction, id: string) {
  return tx.qualificationKind.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

export type KindRow = NonNullable<Awaited<ReturnType<typeof findKind>>>;

/** Undefined when another kind has this name. */
export async function addKind(
  tx: FirmTransaction,
  fields: { name: string; warnDays: number },
): Promise<KindRow | undefined> {
  const [row] = await tx.qualificationKind.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields }],
    skipDuplicates: true,
  });
  return row;
}

export async function isKindNameTaken(
  tx: FirmTransaction,
  name: string,
  exceptId: string,
): Promise<boolean> {
  const row = await tx.qualificationKind.findFirst({
    where: { firmId: tx.firmId, name, id: { not: exceptId } },
    select: { id: true },
  });
  return row !== null;
}

/** False when the row has another version by now. */
export async function editKind(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: { name?: string; warnDays?: number; archivedAt?: Date | null },
): Promise<boolean> {
  const { count } = await tx.qualificationKind.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}
