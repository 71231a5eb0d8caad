import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export const WITH_ALL = {
  site: { select: { id: true, reference: true, name: true, addressLine: true, archivedAt: true } },
  plan: { select: { id: true, code: true, title: true } },
  jobs: {
    include: { job: { select: { id: true, reference: true, state: true } } },
    orderBy: { number: "desc" },
    take: 1,
  },
} as const;

export interface RecurringFilter {
  siteId?: string;
  ended: boolean;
  dueBefore?: string;
  after?: string;
  most: number;
}

export async function listRecurring(tx: FirmTransaction, filter: RecurringFilter) {
  const { siteId, ended, dueBefore, after, most } = filter;
  return tx.recurringInspection.findMany({
    where: {
      firmId: tx.firmId,
      endedAt: ended ? { not: null } : null,
      ...(siteId ? { siteId } : {}),
      ...(dueBefore ? { nextDueOn: { lt: new Date(dueBefore) } } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    include: WITH_ALL,
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function findRecurring(tx: FirmTransaction, id: string) {
  return tx.recurringInspection.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_ALL,
  });
}

export type RecurringRow = NonNullable<Awaited<ReturnType<typeof findRecurring>>>;

export interface RecurringFields {
  siteId: string;
  planId: string;
  title: string;
  everyMonths: number;
  firstDueOn: Date;
  nextDueOn: Date;
  horizonDays: number;
  createdById: string;
}

export async function addRecurring(tx: FirmTransaction, fields: RecurringFields): Promise<string> {
  const { id } = await tx.recurringInspection.create({
    data: { firmId: tx.firmId, id: uuidv7(), ...fields },
    select: { id: true },
  });
  return id;
}

export interface RecurringChange {
  planId?: string;
  title?: string;
  everyMonths?: number;
  firstDueOn?: Date;
  firstNumber?: number;
  nextDueOn?: Date;
  horizonDays?: number;
  endedAt?: Date | null;
}

/** False when the row has another version by now. */
export async function editRecurring(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: RecurringChange,
): Promise<boolean> {
  const { count } = await tx.recurringInspection.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, heldUpBy: null, version: { increment: 1 } },
  });
  return count === 1;
}

/** False where it has opened a job by now, or is not there. */
export async function removeRecurring(tx: FirmTransaction, id: string): Promise<boolean> {
  const { count } = await tx.recurringInspection.deleteMany({
    where: { firmId: tx.firmId, id, jobs: { none: {} } },
  });
  return count === 1;
}

/** As it was before it was removed; nothing happens where it is there again already. */
export async function putRecurringBack(
  tx: FirmTransaction,
  fields: RecurringFields & { id: string },
): Promise<void> {
  await tx.recurringInspection.createMany({
    data: [{ firmId: tx.firmId, ...fields }],
    skipDuplicates: true,
  });
}
