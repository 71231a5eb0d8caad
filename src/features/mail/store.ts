import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

/** What a mail is about, as the outbox shows and filters it. */
export const MAIL_KINDS = [
  "notice",
  "invitation",
  "document",
  "visit-confirmation",
  "visit-change",
  "visit-cancellation",
  "visit-reminder",
] as const;
export type MailKind = (typeof MAIL_KINDS)[number];

export interface MailAttachment {
  name: string;
  /** With its parameters: `text/calendar; charset=utf-8; method=REQUEST`. */
  contentType: string;
  content: Uint8Array;
}

/** By what the letter itself shows an attachment of this name (RFC 2392). */
export const insideCid = (name: string): string => `${name}@holdpoint`;

export interface NewMail {
  recipient: string;
  subject: string;
  textBody: string;
  htmlBody: string;
  /** Right-hand side of the Message-ID: `mailHost(config)`. */
  host: string;
  kind?: MailKind;
  /** Name shown before the sender's address, instead of the service's own. */
  senderName?: string | null;
  /** Where an answer goes. */
  replyTo?: string | null;
  /** Set for a mail to a customer: nothing leaves while the customer's address fails. */
  customerId?: string;
  visitId?: string;
  /** Whether it keeps to the firm's quiet hours. */
  quiet?: boolean;
  /** It is not tried before then. */
  notBefore?: Date;
  /** A second mail under the same key is not written. */
  onceKey?: string;
  attachments?: readonly MailAttachment[];
}

/**
 * Puts a mail into the outbox; it leaves when the transaction has committed and a run finds it. It
 * leaves at least once: a process killed between the server's answer and its own note of it sends
 * the mail again under the same Message-ID. Returns the mail that stands under `onceKey` already,
 * unchanged, where there is one.
 */
export async function queueMail(tx: FirmTransaction, mail: NewMail, now: Date) {
  const { host, attachments = [], notBefore = now, ...fields } = mail;
  const { firmId } = tx;
  const id = uuidv7();
  const own = { firmId, id, messageId: `<${id}@${host}>`, notBefore, createdAt: now };
  const [row] = await tx.mail.createManyAndReturn({
    data: [{ ...fields, ...own }],
    skipDuplicates: fields.onceKey !== undefined,
  });
  if (!row) {
    const onceKey = fields.onceKey ?? "";
    return tx.mail.findUniqueOrThrow({ where: { firmId_onceKey: { firmId, onceKey } } });
  }
  if (attachments.length > 0) {
    await tx.mailAttachment.createMany({
      data: attachments.map(({ content, ...attachment }, at) => ({
        ...{ ...attachment, firmId, mailId: id, number: at + 1 },
        content: new Uint8Array(content),
      })),
    });
  }
  return row;
}
