import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { NoticeWish } from "../../domain/firmware/digest.ts";
import type { Role } from "../../web/roles.ts";

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

const PEOPLE_MOST = 500;

export interface NoticePerson {
  id: string;
  email: string;
  roles: Role[];
  language: string | null;
  wish: NoticeWish;
}

/** Whom notices may concern: office, managers and installers who still sign in. */
export async function noticePeople(tx: FirmTransaction): Promise<NoticePerson[]> {
  const rows = await tx.person.findMany({
    where: {
      ...{ firmId: tx.firmId, active: true },
      roles: { hasSome: ["office", "manager", "installer"] },
    },
    select: { id: true, email: true, roles: true, language: true, firmwareNotices: true },
    orderBy: { id: "asc" },
    take: PEOPLE_MOST,
  });
  return rows.map(({ firmwareNotices, roles, ...row }) => ({
    ...row,
    roles: roles as Role[],
    wish: firmwareNotices as NoticeWish,
  }));
}

export async function countUnseen(tx: FirmTransaction, personId: string): Promise<number> {
  return tx.notice.count({ where: { firmId: tx.firmId, personId, seenAt: null } });
}

export async function markSeen(tx: FirmTransaction, ids: string[], now: Date): Promise<void> {
  await tx.notice.updateMany({
    where: { firmId: tx.firmId, id: { in: ids }, seenAt: null },
    data: { seenAt: now },
  });
}

export async function setWish(
  tx: FirmTransaction,
  personId: string,
  wish: NoticeWish,
): Promise<void> {
  await tx.person.updateMany({
    where: { firmId: tx.firmId, id: personId },
    data: { firmwareNotices: wish },
  });
}

export interface NewNotice {
  kind: string;
  day: string;
  personId: string;
  contentSha256: string;
  mailId: string;
  subject: string;
  body: string;
}

export async function addNotice(tx: FirmTransaction, notice: NewNotice): Promise<void> {
  const { day, ...fields } = notice;
  await tx.notice.create({
    data: { firmId: tx.firmId, id: uuidv7(), day: new Date(day), ...fields },
  });
}

/** Whether anybody had a notice of this kind on the day. */
export async function wasNotedOn(tx: FirmTransaction, kind: string, day: string): Promise<boolean> {
  const where = { firmId: tx.firmId, kind, day: new Date(day) };
  return (await tx.notice.findFirst({ where, select: { id: true } })) !== null;
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
