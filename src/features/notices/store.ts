import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface DueRecord {
  day: string;
  siteCount: number;
  unitCount: number;
  entries: object[];
}

/** Keeps the list as it stood on the day; false when that day has been recorded. */
export async function recordDueList(tx: FirmTransaction, record: DueRecord): Promise<boolean> {
  const { day, ...fields } = record;
  // Waits for a twin that is under way: if that one commits, this one has nothing left to do.
  const { count } = await tx.dueListRecord.createMany({
    data: [{ firmId: tx.firmId, id: uuidv7(), day: new Date(day), ...fields }],
    skipDuplicates: true,
  });
  return count === 1;
}

export async function isRecorded(tx: FirmTransaction, day: string): Promise<boolean> {
  const where = { firmId: tx.firmId, day: new Date(day) };
  return (await tx.dueListRecord.count({ where })) > 0;
}

const OFFICE_PEOPLE_MOST = 500;

/** Who minds the office. */
export async function officePeople(tx: FirmTransaction) {
  return tx.person.findMany({
    where: { firmId: tx.firmId, active: true, roles: { has: "office" } },
    select: { id: true, email: true, name: true },
    orderBy: { id: "asc" },
    take: OFFICE_PEOPLE_MOST,
  });
}

export interface NewNotice {
  kind: string;
  day: string;
  personId: string;
  contentSha256: string;
  mailId: string;
}

export async function addNotice(tx: FirmTransaction, notice: NewNotice): Promise<void> {
  const { day, ...fields } = notice;
  await tx.notice.create({
    data: { firmId: tx.firmId, id: uuidv7(), day: new Date(day), ...fields },
  });
}

export interface NoticeFilter {
  day?: string;
  after?: string;
  most: number;
}

export async function listNotices(tx: FirmTransaction, { day, after, most }: NoticeFilter) {
  return tx.notice.findMany({
    where: {
      firmId: tx.firmId,
      ...(day ? { day: new Date(day) } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    include: { mail: { select: { state: true } } },
    orderBy: { id: "asc" },
    take: most,
  });
}

const WITHOUT_ENTRIES = { id: true, day: true, siteCount: true, unitCount: true } as const;

export async function listDueListRecords(tx: FirmTransaction, { day, after, most }: NoticeFilter) {
  return tx.dueListRecord.findMany({
    where: {
      firmId: tx.firmId,
      ...(day ? { day: new Date(day) } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    select: WITHOUT_ENTRIES,
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function findDueListRecord(tx: FirmTransaction, id: string) {
  return tx.dueListRecord.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}
