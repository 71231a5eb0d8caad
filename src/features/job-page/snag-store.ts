import type { FirmTransaction } from "../../db/scope.ts";

/** Pictures of the snag's job and of its follow-up, the newest first: what may show it mended. */
export async function photosForSnag(tx: FirmTransaction, jobIds: string[], most: number) {
  return tx.photo.findMany({
    where: { firmId: tx.firmId, jobId: { in: jobIds } },
    select: { sha256: true, jobId: true, receivedAt: true, person: { select: { name: true } } },
    orderBy: { id: "desc" },
    take: most,
  });
}
