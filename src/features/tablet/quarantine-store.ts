import type { FirmTransaction } from "../../db/scope.ts";

export async function listQuarantine(tx: FirmTransaction, page: { after?: string; most: number }) {
  return tx.tabletQuarantine.findMany({
    where: { firmId: tx.firmId, ...(page.after ? { id: { gt: page.after } } : {}) },
    include: { sentBy: { select: { name: true } } },
    orderBy: { id: "asc" },
    take: page.most,
  });
}
