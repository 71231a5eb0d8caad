import type { FirmTransaction } from "../../db/scope.ts";
import type { PassportValue } from "./schemas.ts";

export interface PassportFields {
  uri: string | null;
  entries: PassportValue[];
  updatedById: string;
  updatedAt: Date;
}

export async function findPassport(tx: FirmTransaction, unitId: string) {
  return tx.batteryPassport.findUnique({ where: { firmId_unitId: { firmId: tx.firmId, unitId } } });
}

export type PassportRow = NonNullable<Awaited<ReturnType<typeof findPassport>>>;

/** False when the passport has another version by now; 0 is that of one not kept yet. */
export async function writePassport(
  tx: FirmTransaction,
  unitId: string,
  version: number,
  fields: PassportFields,
): Promise<boolean> {
  const { firmId } = tx;
  const row = { ...fields, entries: fields.entries as object[] };
  if (version === 0) {
    const data = [{ firmId, unitId, ...row }];
    return (await tx.batteryPassport.createMany({ data, skipDuplicates: true })).count === 1;
  }
  const { count } = await tx.batteryPassport.updateMany({
    where: { firmId, unitId, version },
    data: { ...row, version: { increment: 1 } },
  });
  return count === 1;
}
