import { uuidv7 } from "uuidv7";
import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";

export interface NewMessageRow {
  id?: string;
  jobId: string;
  text: string;
  personId: string;
  fromTablet: boolean;
}

const WITH_NAME = { person: { select: { name: true } } } as const;

/** Numbers have no gaps: the caller holds the job's lock. */
export async function addMessage(tx: FirmTransaction, row: NewMessageRow, writtenAt: Date) {
  const { firmId } = tx;
  const { _max } = await tx.jobMessage.aggregate({
    where: { firmId, jobId: row.jobId },
    _max: { number: true },
  });
  const number = (_max.number ?? 0) + 1;
  return tx.jobMessage.create({
    data: { firmId, id: uuidv7(), number, writtenAt, ...row },
    include: WITH_NAME,
  });
}

export type MessageRow = Awaited<ReturnType<typeof addMessage>>;

export interface MessageFilter {
  after?: number;
  /** The newest first. */
  last: boolean;
  most: number;
}

export async function listMessages(
  tx: FirmTransaction,
  jobId: string,
  { after, last, most }: MessageFilter,
): Promise<MessageRow[]> {
  return tx.jobMessage.findMany({
    where: {
      firmId: tx.firmId,
      jobId,
      ...(after === undefined ? {} : { number: last ? { lt: after } : { gt: after } }),
    },
    include: WITH_NAME,
    orderBy: { number: last ? "desc" : "asc" },
    take: most,
  });
}

export interface Standing {
  last: number;
  through: number;
  unread: number;
}

/** How far the person has read; own messages are never unread. */
export async function readStanding(
  tx: FirmTransaction,
  jobId: string,
  personId: string,
): Promise<Standing> {
  const [row] = await tx.$queryRaw<Standing[]>`WITH seen AS (
      SELECT coalesce((SELECT through FROM job_message_seen WHERE firm_id = ${tx.firmId}::uuid
        AND job_id = ${jobId}::uuid AND person_id = ${personId}::uuid), 0) AS through)
    SELECT seen.through, coalesce(max(m.number), 0)::int AS last,
      count(m.id) FILTER (WHERE m.number > seen.through
        AND m.person_id <> ${personId}::uuid)::int AS unread
    FROM seen LEFT JOIN job_message m ON m.firm_id = ${tx.firmId}::uuid
      AND m.job_id = ${jobId}::uuid GROUP BY seen.through`;
  return row ?? { last: 0, through: 0, unread: 0 };
}

/** Never back: two windows of one person may tell it in any order. */
export async function markSeen(
  tx: FirmTransaction,
  jobId: string,
  personId: string,
  through: number,
): Promise<void> {
  await tx.$executeRaw`INSERT INTO job_message_seen (firm_id, job_id, person_id, through)
    SELECT ${tx.firmId}::uuid, ${jobId}::uuid, ${personId}::uuid, least(${through}::int,
      (SELECT coalesce(max(number), 0) FROM job_message
        WHERE firm_id = ${tx.firmId}::uuid AND job_id = ${jobId}::uuid))
    ON CONFLICT (firm_id, job_id, person_id)
      DO UPDATE SET through = greatest(job_message_seen.through, excluded.through)`;
}

export interface UnreadJob {
  jobId: string;
  jobReference: string;
  title: string;
  unread: number;
  /** The newest of them. */
  lastText: string;
  lastBy: string;
}

/** Open jobs with messages that the person has not read, the latest message first. */
export async function listUnread(
  tx: FirmTransaction,
  personId: string,
  most: number,
): Promise<UnreadJob[]> {
  return tx.$queryRaw<UnreadJob[]>`SELECT u.job_id AS "jobId", j.reference AS "jobReference",
      j.title, u.unread, m.text AS "lastText", p.name AS "lastBy"
    FROM (${unreadBy(tx.firmId, personId)}) u
    JOIN job j ON j.firm_id = ${tx.firmId}::uuid AND j.id = u.job_id
    JOIN job_message m ON m.firm_id = j.firm_id AND m.job_id = j.id AND m.number = u.last
    JOIN person p ON p.firm_id = m.firm_id AND p.id = m.person_id
    ORDER BY m.written_at DESC, j.id LIMIT ${most}`;
}

/** In all open jobs. */
export async function countUnread(tx: FirmTransaction, personId: string): Promise<number> {
  const [row] = await tx.$queryRaw<{ unread: number }[]>`
    SELECT coalesce(sum(unread), 0)::int AS unread FROM (${unreadBy(tx.firmId, personId)}) u`;
  return row?.unread ?? 0;
}

const unreadBy = (firmId: string, personId: string): Prisma.Sql => Prisma.sql`
  SELECT m.job_id, count(*)::int AS unread, max(m.number) AS last
  FROM job_message m
  JOIN job j ON j.firm_id = m.firm_id AND j.id = m.job_id AND j.state = 'open'
  LEFT JOIN job_message_seen s ON s.firm_id = m.firm_id AND s.job_id = m.job_id
    AND s.person_id = ${personId}::uuid
  WHERE m.firm_id = ${firmId}::uuid AND m.person_id <> ${personId}::uuid
    AND m.number > coalesce(s.through, 0)
  GROUP BY m.job_id`;
