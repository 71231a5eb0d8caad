import { uuidv7 } from "uuidv7";
import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import type { Language } from "../../language/languages.ts";

export interface NewFirm {
  name: string;
  timeZone: string;
  unitSystem: "metric" | "us";
  language?: Language;
}

/** Founds a firm and does `work` in it, all in one transaction. */
export async function foundFirm<T>(
  db: Database,
  firm: NewFirm,
  work: (tx: FirmTransaction) => Promise<T>,
): Promise<{ firmId: string; result: T }> {
  const firmId = uuidv7();
  const result = await inFirm(db, firmId, async (tx) => {
    await tx.firm.create({ data: { id: firmId, ...firm } });
    return work(tx);
  });
  return { firmId, result };
}

export async function readFirm(tx: FirmTransaction) {
  return tx.firm.findUniqueOrThrow({ where: { id: tx.firmId } });
}

/** Every firm, for the scheduled runs alone: a policy of its own lets them see the list. */
export async function listFirmsForRuns(
  db: Database,
): Promise<{ id: string; name: string; timeZone: string }[]> {
  return db.prisma.$transaction(async (tx) => {
    await tx.$executeRaw`SELECT set_config('app.purpose', 'runs', true)`;
    return tx.firm.findMany({
      select: { id: true, name: true, timeZone: true },
      orderBy: { id: "asc" },
    });
  });
}

/** Whether anybody uses this installation: seen through the policy for runs. */
export async function isThereAFirm(db: Database): Promise<boolean> {
  return db.prisma.$transaction(async (tx) => {
    await tx.$executeRaw`SELECT set_config('app.purpose', 'runs', true)`;
    return (await tx.firm.findFirst({ select: { id: true } })) !== null;
  });
}
