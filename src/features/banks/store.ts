import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

const WITH_PACKS = {
  units: {
    include: { model: true },
    orderBy: [{ bankPosition: { sort: "asc", nulls: "last" } }, { id: "asc" }],
  },
} as const;

export async function listBanks(
  tx: FirmTransaction,
  filter: { siteId?: string; after?: string; most: number },
) {
  return tx.bank.findMany({
    where: {
      firmId: tx.firmId,
      ...(filter.siteId ? { siteId: filter.siteId } : {}),
      ...(filter.after ? { id: { gt: filter.after } } : {}),
    },
    include: { units: { ...WITH_PACKS.units, orderBy: [...WITH_PACKS.units.orderBy] } },
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export async function findBank(tx: FirmTransaction, id: string) {
  return tx.bank.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: { units: { ...WITH_PACKS.units, orderBy: [...WITH_PACKS.units.orderBy] } },
  });
}

/** Undefined when the site has a bank of this name. */
export async function addBank(
  tx: FirmTransaction,
  fields: { siteId: string; name: string; protocol?: string | null },
): Promise<string | undefined> {
  const [row] = await tx.bank.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields }],
    skipDuplicates: true,
  });
  return row?.id;
}

export async function isBankNameTaken(
  tx: FirmTransaction,
  bank: { id: string; siteId: string },
  name: string,
): Promise<boolean> {
  const row = await tx.bank.findFirst({
    where: { firmId: tx.firmId, siteId: bank.siteId, name, id: { not: bank.id } },
    select: { id: true },
  });
  return row !== null;
}

/** False when the row has another version by now. Also locks the bank for this transaction. */
export async function editBank(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: { name?: string; protocol?: string | null },
): Promise<boolean> {
  const { count } = await tx.bank.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

export interface PackRow {
  id: string;
  kind: string;
  siteId: string | null;
  bankId: string | null;
}

/** Locks these units and those in the bank, so that none of them leaves the site meanwhile. */
export async function takePacks(
  tx: FirmTransaction,
  bankId: string,
  unitIds: string[],
): Promise<PackRow[]> {
  await tx.$queryRaw`
    SELECT id FROM unit
    WHERE firm_id = ${tx.firmId}::uuid
      AND (id = ANY (${unitIds}::uuid[]) OR bank_id = ${bankId}::uuid)
    ORDER BY id FOR NO KEY UPDATE`;
  const rows = await tx.unit.findMany({
    where: { firmId: tx.firmId, id: { in: unitIds } },
    include: { model: { select: { kind: true } } },
  });
  return rows.map(({ id, siteId, bankId: from, model }) => ({
    id,
    kind: model.kind,
    siteId,
    bankId: from,
  }));
}

/** Empties the bank, then puts each pack in its place: so two may trade places. */
export async function placePacks(
  tx: FirmTransaction,
  bankId: string,
  packs: { unitId: string; position: number }[],
): Promise<void> {
  const ids = packs.map(({ unitId }) => unitId);
  await tx.unit.updateMany({
    where: { firmId: tx.firmId, bankId },
    data: { bankPosition: null },
  });
  await tx.unit.updateMany({
    where: { firmId: tx.firmId, bankId, id: { notIn: ids } },
    data: { bankId: null, version: { increment: 1 } },
  });
  for (const { unitId, position } of packs) {
    await tx.unit.updateMany({
      where: { firmId: tx.firmId, id: unitId },
      data: { bankId, bankPosition: position, version: { increment: 1 } },
    });
  }
}
