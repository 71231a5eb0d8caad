import type { Database } from "../../db/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";

/** Calendar programs ask often; the page needs to know no closer when they last did. */
const FETCH_NOTED_EVERY_MS = 3_600_000;

export async function findAddress(tx: FirmTransaction, personId: string) {
  const { firmId } = tx;
  return tx.calendarAddress.findUnique({ where: { firmId_personId: { firmId, personId } } });
}

/** The person's one address; an earlier one is gone at once. */
export async function putAddress(
  tx: FirmTransaction,
  personId: string,
  secretHash: string,
  now: Date,
): Promise<void> {
  const { firmId } = tx;
  const fresh = { secretHash, createdAt: now, fetchedAt: null };
  await tx.calendarAddress.upsert({
    where: { firmId_personId: { firmId, personId } },
    create: { firmId, personId, ...fresh },
    update: fresh,
  });
}

/** False when there was none. */
export async function endAddress(tx: FirmTransaction, personId: string): Promise<boolean> {
  const { count } = await tx.calendarAddress.deleteMany({
    where: { firmId: tx.firmId, personId },
  });
  return count === 1;
}

/** Whose calendar an address is, before any firm is known: a policy of its own shows that row. */
export async function findByHash(
  db: Database,
  secretHash: string,
): Promise<{ firmId: string; personId: string } | null> {
  return db.prisma.$transaction(async (tx) => {
    await tx.$executeRaw`SELECT set_config('app.calendar_hash', ${secretHash}, true)`;
    return tx.calendarAddress.findUnique({
      where: { secretHash },
      select: { firmId: true, personId: true },
    });
  });
}

export async function noteFetch(tx: FirmTransaction, personId: string, now: Date): Promise<void> {
  const before = new Date(now.getTime() - FETCH_NOTED_EVERY_MS);
  await tx.calendarAddress.updateMany({
    where: {
      ...{ firmId: tx.firmId, personId },
      OR: [{ fetchedAt: null }, { fetchedAt: { lt: before } }],
    },
    data: { fetchedAt: now },
  });
}
