// The outbox as people see it, and as files where no mail server is set.
import type { FirmTransaction } from "../../db/scope.ts";
import type { WaitingMail } from "./claim-store.ts";
import type { MailKind } from "./store.ts";

export const MAIL_STATES = ["waiting", "held", "sent", "failed", "returned", "cancelled"] as const;
export type MailState = (typeof MAIL_STATES)[number];

const FILED =
  "No mail server is set (SMTP_URL). The mail waits here and lies as a file in DATA_DIR/mail.";

const SHOWN = {
  attachments: {
    select: { number: true, name: true, contentType: true },
    orderBy: { number: "asc" },
  },
  customer: {
    select: { id: true, name: true, email: true, emailFailingAt: true, emailFailingReason: true },
  },
  visit: { select: { job: { select: { id: true, reference: true } } } },
} as const;

/** Waiting mails that were not written as files yet. */
export async function listUnfiled(
  tx: FirmTransaction,
  now: Date,
  most: number,
): Promise<WaitingMail[]> {
  return tx.mail.findMany({
    where: {
      firmId: tx.firmId,
      state: "waiting",
      notBefore: { lte: now },
      OR: [{ lastError: null }, { lastError: { not: FILED } }],
    },
    include: { attachments: { orderBy: { number: "asc" } } },
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function markFiled(tx: FirmTransaction, id: string): Promise<void> {
  await tx.mail.updateMany({
    where: { firmId: tx.firmId, id, state: "waiting" },
    data: { lastError: FILED },
  });
}

export interface MailFilter {
  state?: MailState | undefined;
  kind?: MailKind | undefined;
  customerId?: string | undefined;
  visitId?: string | undefined;
  after?: string | undefined;
  most: number;
}

export async function listMails(tx: FirmTransaction, filter: MailFilter) {
  const { after, most, ...equal } = filter;
  const given = Object.entries(equal).filter(([, value]) => value !== undefined);
  return tx.mail.findMany({
    where: {
      firmId: tx.firmId,
      ...Object.fromEntries(given),
      ...(after ? { id: { gt: after } } : {}),
    },
    include: SHOWN,
    orderBy: { id: "asc" },
    take: most,
  });
}

export async function mailsById(tx: FirmTransaction, ids: string[]): Promise<OutboxMail[]> {
  return tx.mail.findMany({ where: { firmId: tx.firmId, id: { in: ids } }, include: SHOWN });
}

export type OutboxMail = Awaited<ReturnType<typeof listMails>>[number];

export async function findMail(tx: FirmTransaction, id: string): Promise<OutboxMail | null> {
  return tx.mail.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: SHOWN,
  });
}

/** All that the message is made of. */
export async function findWholeMail(tx: FirmTransaction, id: string) {
  return tx.mail.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: { attachments: { orderBy: { number: "asc" } } },
  });
}

/** How many mails there are in each state that has any, of those that the filter leaves. */
export async function countMails(
  tx: FirmTransaction,
  { kind, recipient }: { kind?: MailKind | undefined; recipient?: string | undefined },
): Promise<Partial<Record<MailState, number>>> {
  const rows = await tx.mail.groupBy({
    by: ["state"],
    where: {
      firmId: tx.firmId,
      ...(kind ? { kind } : {}),
      ...(recipient ? { recipient: { contains: recipient, mode: "insensitive" as const } } : {}),
    },
    _count: { _all: true },
  });
  return Object.fromEntries(rows.map(({ state, _count }) => [state, _count._all]));
}

export interface MailChange {
  from: readonly MailState[];
  data: {
    state: MailState;
    attempts?: number;
    notBefore?: Date;
    sentAt?: Date;
    lastError?: string | null;
  };
}

/** False when the mail is in another state, or an attempt to send it is under way. */
export async function changeMail(
  tx: FirmTransaction,
  id: string,
  { from, data }: MailChange,
  now: Date,
): Promise<boolean> {
  const { count } = await tx.mail.updateMany({
    where: {
      ...{ firmId: tx.firmId, id, state: { in: [...from] } },
      OR: [{ claimedUntil: null }, { claimedUntil: { lte: now } }],
    },
    data: { ...data, claimedUntil: null },
  });
  return count === 1;
}

/** The mail that a report is about: by its Message-ID, or by the id it was handed over with. */
export async function findReported(
  tx: FirmTransaction,
  { messageId, envelopeId }: { messageId?: string; envelopeId?: string },
) {
  const { firmId } = tx;
  const byMessage = messageId ? await tx.mail.findFirst({ where: { firmId, messageId } }) : null;
  if (byMessage || !envelopeId || !/^[0-9a-f-]{36}$/.test(envelopeId)) return byMessage;
  return tx.mail.findFirst({ where: { firmId, id: envelopeId } });
}

export async function markReturned(tx: FirmTransaction, id: string, reason: string): Promise<void> {
  await tx.mail.updateMany({
    where: { firmId: tx.firmId, id },
    data: { state: "returned", lastError: reason, claimedUntil: null },
  });
}

/** What a server on the way says while it still tries. */
export async function noteDelay(tx: FirmTransaction, id: string, reason: string): Promise<void> {
  await tx.mail.updateMany({
    where: { firmId: tx.firmId, id, state: "sent" },
    data: { lastError: reason },
  });
}
