// One attempt at a time, whoever makes it: an attempt is claimed and counted before it is made, the
// claim commits at once, and no row is locked while the mail server talks.
import type { FirmTransaction } from "../../db/scope.ts";
import type { MailAttachment } from "./store.ts";

export interface WaitingMail {
  id: string;
  recipient: string;
  subject: string;
  textBody: string;
  htmlBody: string | null;
  senderName: string | null;
  replyTo: string | null;
  messageId: string;
  customerId: string | null;
  attempts: number;
  createdAt: Date;
  attachments: MailAttachment[];
}

export interface Claim {
  now: Date;
  /** Until then nobody else takes the mail, unless this process dies and never reports. */
  leaseUntil: Date;
  attemptsMost: number;
  /** Whether the firm's quiet hours are on: mails that keep to them stay where they are. */
  quietNow: boolean;
}

/** Takes the next waiting mail whose time has come and whose customer's address does not fail. */
export async function claimMail(
  tx: FirmTransaction,
  { now, leaseUntil, attemptsMost, quietNow }: Claim,
): Promise<WaitingMail | undefined> {
  const { firmId } = tx;
  const [mail] = await tx.$queryRaw<Omit<WaitingMail, "attachments">[]>`
    UPDATE mail SET attempts = attempts + 1, claimed_until = ${leaseUntil}, last_attempt_at = ${now}
    WHERE firm_id = ${firmId}::uuid AND id = (
      SELECT m.id FROM mail m
      WHERE m.firm_id = ${firmId}::uuid AND m.state = 'waiting' AND m.not_before <= ${now}
        AND (m.claimed_until IS NULL OR m.claimed_until <= ${now})
        AND m.attempts < ${attemptsMost} AND NOT (m.quiet AND ${quietNow})
        AND NOT EXISTS (SELECT FROM customer c WHERE c.firm_id = m.firm_id AND c.id = m.customer_id
          AND c.email_failing_at IS NOT NULL AND lower(c.email) = lower(m.recipient))
      ORDER BY m.not_before, m.id LIMIT 1 FOR UPDATE SKIP LOCKED)
    RETURNING id, recipient, subject, text_body AS "textBody", html_body AS "htmlBody",
      sender_name AS "senderName", reply_to AS "replyTo", message_id AS "messageId",
      customer_id AS "customerId", attempts, created_at AS "createdAt"`;
  if (!mail) return undefined;
  return { ...mail, attachments: await attachmentsOf(tx, mail.id) };
}

export async function attachmentsOf(tx: FirmTransaction, mailId: string) {
  return tx.mailAttachment.findMany({
    where: { firmId: tx.firmId, mailId },
    select: { name: true, contentType: true, content: true },
    orderBy: { number: "asc" },
  });
}

/** What was sent is marked as sent whoever holds the claim by now. */
export async function markSent(tx: FirmTransaction, id: string, at: Date): Promise<void> {
  await tx.mail.updateMany({
    where: { firmId: tx.firmId, id, state: { notIn: ["sent", "returned"] } },
    data: { state: "sent", sentAt: at, lastError: null, claimedUntil: null },
  });
}

/** Does nothing when the claim passed to another meanwhile. */
export async function markRefused(
  tx: FirmTransaction,
  { id, attempts }: Pick<WaitingMail, "id" | "attempts">,
  outcome: { state: "waiting" | "failed"; lastError: string; notBefore: Date },
): Promise<void> {
  await tx.mail.updateMany({
    where: { firmId: tx.firmId, id, attempts, state: "waiting" },
    data: { ...outcome, claimedUntil: null },
  });
}

export interface GivingUp {
  now: Date;
  attemptsMost: number;
  /** What has waited untried since before then says nothing of today. */
  untriedSince: Date;
}

/** Fails what nobody takes again: the process died in its last attempt, or it waited too long. */
export async function giveUpMails(
  tx: FirmTransaction,
  { now, attemptsMost, untriedSince }: GivingUp,
): Promise<number> {
  const waiting = { firmId: tx.firmId, state: "waiting", notBefore: { lte: now } };
  const died = await tx.mail.updateMany({
    where: {
      ...waiting,
      attempts: { gte: attemptsMost },
      OR: [{ claimedUntil: null }, { claimedUntil: { lte: now } }],
    },
    data: {
      state: "failed",
      lastError: "The last attempt ended without an answer.",
      claimedUntil: null,
    },
  });
  const stale = await tx.mail.updateMany({
    where: { ...waiting, attempts: 0, notBefore: { lt: untriedSince } },
    data: {
      state: "failed",
      lastError: "It waited for days and was never tried: not sent any more.",
    },
  });
  return died.count + stale.count;
}
