import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface NewExport {
  list: string;
  filter: object;
  personId: string;
}

/** Who takes what away; its id. */
export async function addExport(tx: FirmTransaction, row: NewExport, now: Date): Promise<string> {
  const id = uuidv7();
  await tx.csvExport.create({ data: { firmId: tx.firmId, id, at: now, ...row } });
  return id;
}

/** The last row has left. */
export async function endExport(tx: FirmTransaction, id: string, rows: number): Promise<void> {
  await tx.csvExport.updateMany({
    where: { firmId: tx.firmId, id, rows: null },
    data: { rows },
  });
}

/** The latest first. */
export async function listExports(
  tx: FirmTransaction,
  { list, before, most }: { list?: string | undefined; before?: string | undefined; most: number },
) {
  return tx.csvExport.findMany({
    where: {
      firmId: tx.firmId,
      ...(list ? { list } : {}),
      ...(before ? { id: { lt: before } } : {}),
    },
    include: { person: { select: { name: true } } },
    orderBy: { id: "desc" },
    take: most,
  });
}
