import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

/** A job has at most a few hundred items, so its concessions fit one page. */
const CONCESSIONS_MOST = 500;

export interface ConcessionGrant {
  jobId: string;
  itemId: string;
  subject: string;
  reason: string;
  grantedById: string;
  expiresOn: string | undefined;
}

export async function addConcession(tx: FirmTransaction, grant: ConcessionGrant, now: Date) {
  const { expiresOn, ...data } = grant;
  return tx.concession.create({
    data: {
      firmId: tx.firmId,
      id: uuidv7(),
      grantedAt: now,
      ...data,
      ...(expiresOn ? { expiresOn: new Date(expiresOn) } : {}),
    },
  });
}

export async function countConcessions(tx: FirmTransaction, jobId: string): Promise<number> {
  return tx.concession.count({ where: { firmId: tx.firmId, jobId } });
}

export async function listConcessions(tx: FirmTransaction, jobId: string) {
  return tx.concession.findMany({
    where: { firmId: tx.firmId, jobId },
    orderBy: { id: "asc" },
    take: CONCESSIONS_MOST,
  });
}

export async function tookTheReading(
  tx: FirmTransaction,
  jobId: string,
  place: { itemId: string; subject: string },
  personId: string,
): Promise<boolean> {
  const answer = await tx.answer.findFirst({
    where: { firmId: tx.firmId, jobId, personId, itemId: place.itemId, subject: place.subject },
    select: { id: true },
  });
  return answer !== null;
}

export async function revokeConcession(
  tx: FirmTransaction,
  id: string,
  personId: string,
  now: Date,
) {
  const [row] = await tx.concession.updateManyAndReturn({
    where: { firmId: tx.firmId, id, revokedAt: null },
    data: { revokedAt: now, revokedById: personId },
  });
  return row;
}

export async function findConcession(tx: FirmTransaction, id: string) {
  return tx.concession.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

export { CONCESSIONS_MOST };
