import type { FirmTransaction } from "../../db/scope.ts";

/** Open jobs to choose from, the newest first. */
export async function openJobReferences(tx: FirmTransaction, most: number) {
  return tx.job.findMany({
    where: { firmId: tx.firmId, state: "open" },
    select: { id: true, reference: true, title: true },
    orderBy: { id: "desc" },
    take: most,
  });
}
