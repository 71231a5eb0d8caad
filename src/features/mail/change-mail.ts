import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { changeMail, findMail, type MailChange, type OutboxMail } from "./outbox-store.ts";

export const MAIL_ACTIONS = [
  "resend",
  "attempt",
  "hold",
  "release",
  "cancellation",
  "sent-by-hand",
] as const;
export type MailAction = (typeof MAIL_ACTIONS)[number];

const CHANGES: Record<MailAction, (now: Date) => MailChange> = {
  resend: (now) => ({
    from: ["failed", "returned", "cancelled"],
    data: { state: "waiting", attempts: 0, notBefore: now, lastError: null },
  }),
  attempt: (now) => ({ from: ["waiting"], data: { state: "waiting", notBefore: now } }),
  hold: () => ({ from: ["waiting"], data: { state: "held" } }),
  release: (now) => ({ from: ["held"], data: { state: "waiting", notBefore: now } }),
  cancellation: () => ({ from: ["waiting", "held", "failed"], data: { state: "cancelled" } }),
  "sent-by-hand": (now) => ({
    from: ["waiting", "held", "failed"],
    data: { state: "sent", sentAt: now, lastError: null },
  }),
};

/** Whether the page may offer the action for a mail as it stands. */
export const isOffered = (action: MailAction, mail: OutboxMail, now: Date): boolean =>
  (CHANGES[action](now).from as readonly string[]).includes(mail.state) && !isUnderWay(mail, now);

export const isUnderWay = ({ claimedUntil }: OutboxMail, now: Date): boolean =>
  claimedUntil !== null && claimedUntil > now;

export async function actOnMail(
  tx: FirmTransaction,
  id: string,
  action: MailAction,
  now: Date,
): Promise<OutboxMail> {
  const change = CHANGES[action](now);
  const changed = await changeMail(tx, id, change, now);
  const mail = await findMail(tx, id);
  if (!mail) throw notFound("mail");
  if (changed) return mail;
  if (isUnderWay(mail, now)) {
    throw new Problem("conflict", "The mail is being sent at this moment. Look again in a while.");
  }
  const states = change.from.join(" or ");
  throw new Problem("conflict", `The mail is ${mail.state}; this takes one that is ${states}.`);
}
