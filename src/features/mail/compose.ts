// A mail as a message (RFC 5322). The same mail gives the same message at each attempt, byte for
// byte: its id, its date and the marks between its parts are those of its row.
import nodemailer, { type SendMailOptions } from "nodemailer";
import type { Config } from "../../config.ts";
import type { WaitingMail } from "./claim-store.ts";
import { insideCid } from "./store.ts";

export type MessageFields = Omit<WaitingMail, "attempts" | "customerId">;

type Message = SendMailOptions & { baseBoundary: string };

/** Address that mails come from, without its name. */
export const senderAddress = (config: Config): string =>
  /<([^<>]+)>\s*$/.exec(config.MAIL_FROM)?.[1] ?? config.MAIL_FROM;

export function message(config: Config, mail: MessageFields): Message {
  const { senderName, replyTo } = mail;
  const attachments = mail.attachments.map(({ name, contentType, content }) => ({
    filename: name,
    contentType,
    content: Buffer.from(content),
    // What the letter itself shows stands beside it and is no file to save.
    ...(mail.htmlBody?.includes(`cid:${insideCid(name)}`)
      ? { cid: insideCid(name), contentDisposition: "inline" as const }
      : {}),
  }));
  return {
    from: senderName ? { name: senderName, address: senderAddress(config) } : config.MAIL_FROM,
    to: { name: "", address: mail.recipient },
    ...(replyTo ? { replyTo: { name: "", address: replyTo } } : {}),
    subject: mail.subject,
    text: mail.textBody,
    ...(mail.htmlBody ? { html: mail.htmlBody } : {}),
    // RFC 6047 2.4: a calendar program looks for the invitation among the ways to read the text.
    alternatives: attachments
      .filter(({ contentType }) => contentType.startsWith("text/calendar"))
      .map(({ contentType, content }) => ({ contentType, content })),
    attachments,
    messageId: mail.messageId,
    date: mail.createdAt,
    baseBoundary: mail.id,
    // RFC 3834: keeps holiday answers from coming back.
    headers: { "Auto-Submitted": "auto-generated" },
    // RFC 3461: a server that knows how says under the mail's own id that it could not deliver.
    dsn: { id: mail.id, return: "headers", notify: "failure", recipient: mail.recipient },
    disableFileAccess: true,
    disableUrlAccess: true,
  };
}

/** The whole message as it would go out, lines ended by CRLF. */
export async function composeRaw(config: Config, mail: MessageFields): Promise<Buffer> {
  const composer = nodemailer.createTransport({
    streamTransport: true,
    buffer: true,
    newline: "windows",
  });
  const composed = await composer.sendMail(message(config, mail));
  return composed.message as Buffer;
}
