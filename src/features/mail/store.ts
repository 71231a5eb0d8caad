import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface NewMail {
  recipient: string;
  subject: string;
  textBody: string;
  htmlBody: string;
  /** Right-hand side of the Message-ID. */
  host: string;
}

/** Puts a mail into the outbox; it leaves when the transaction has committed and a run finds it. */
export async function queueMail(tx: FirmTransaction, { host, ...mail }: NewMail, now: Date) {
  const id = uuidv7();
  const messageId = `<${id}@${host}>`;
  return tx.mail.create({ data: { firmId: tx.firmId, id, messageId, notBefore: now, ...mail } });
}

export interface WaitingMail {
  id: string;
  recipient: string;
  subject: string;
  textBody: string;
  htmlBody: string | null;
  messageId: string;
  attempts: number;
  createdAt: Date;
}

export interface Claim {
  now: Date;
  /** Until then nobody else takes the mail, unless this process dies and never reports. */
  leaseUntil: Date;
  attemptsMost: number;
}

/**
 * Takes the next waiting mail whose time has come and counts the attempt before it is made. The
 * claim commits at once and the row is not locked while the mail server talks.
 */
export async function claimMail(
  tx: FirmTransaction,
  { now, leaseUntil, attemptsMost }: Claim,
): Promise<WaitingMail | undefined> {
  const [mail] = await tx.$queryRaw<WaitingMail[]>`
    UPDATE mail SET attempts = attempts + 1, not_before = ${leaseUntil}
    WHERE firm_id = ${tx.firmId}::uuid AND id = (
      SELECT id FROM mail
      WHERE firm_id = ${tx.firmId}::uuid AND state = 'waiting' AND not_before <= ${now}
        AND attempts < ${attemptsMost}
      ORDER BY not_before, id LIMIT 1 FOR UPDATE SKIP LOCKED)
    RETURNING id, recipient, subject, text_body AS "textBody", html_body AS "htmlBody",
      message_id AS "messageId", attempts, created_at AS "createdAt"`;
  return mail;
}

/** What was sent is marked as sent whoever holds the claim by now. */
export async function markSent(tx: FirmTransaction, id: string, at: Date): Promise<void> {
  await tx.mail.updateMany({
    where: { firmId: tx.firmId, id, state: { not: "sent" } },
    data: { state: "sent", sentAt: at, lastError: null },
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
    data: outcome,
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
    where: { ...waiting, attempts: { gte: attemptsMost } },
    data: { state: "failed", lastError: "The last attempt ended without an answer." },
  });
  const stale = await tx.mail.updateMany({
    where: { ...waiting, attempts: 0, notBefore: { lt: untriedSince } },
    data: { state: "failed", lastError: "It waited for days without a mail server: not sent." },
  });
  return died.count + stale.count;
}
