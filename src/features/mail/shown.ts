import type { z } from "zod";
import type { Config } from "../../config.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { readFirm } from "../firms/store.ts";
import { isUnderWay } from "./change-mail.ts";
import type { OutboxMail } from "./outbox-store.ts";
import { quietEnd } from "./quiet.ts";
import type { Mail } from "./schemas.ts";
import { type MailSettings, readMailSettings } from "./settings-store.ts";

export interface Clock {
  now: Date;
  timeZone: string;
  settings: MailSettings;
  /** Without a server nothing is tried: a person sends the files. */
  hasServer: boolean;
}

export async function clockOf(tx: FirmTransaction, now: Date, config: Config): Promise<Clock> {
  const [{ timeZone }, settings] = [await readFirm(tx), await readMailSettings(tx)];
  return { now, timeZone, settings, hasServer: config.SMTP_URL !== undefined };
}

type Shown = z.infer<typeof Mail>;

export function shown(row: OutboxMail, clock: Clock): Shown {
  const { next, waitsFor } = waitingOf(row, clock);
  return {
    id: row.id,
    kind: row.kind,
    recipient: row.recipient,
    senderName: row.senderName,
    replyTo: row.replyTo,
    subject: row.subject,
    textBody: row.textBody,
    attachments: row.attachments.map(({ name, contentType }) => ({ name, contentType })),
    customerId: row.customerId,
    visitId: row.visitId,
    state: row.state as Shown["state"],
    attempts: row.attempts,
    lastError: row.lastError,
    messageId: row.messageId,
    notBefore: row.notBefore.toISOString(),
    nextAttemptAt: next?.toISOString() ?? null,
    waitsFor,
    lastAttemptAt: row.lastAttemptAt?.toISOString() ?? null,
    createdAt: row.createdAt.toISOString(),
    sentAt: row.sentAt?.toISOString() ?? null,
  };
}

/** When a waiting mail is tried next, as far as that can be told, and what it waits for. */
function waitingOf(row: OutboxMail, { now, timeZone, settings, hasServer }: Clock) {
  if (row.state !== "waiting") return { next: null, waitsFor: null };
  if (!hasServer) return { next: null, waitsFor: "server" as const };
  if (isUnderWay(row, now)) return { next: row.claimedUntil, waitsFor: "answer" as const };
  if (isAddressFailing(row)) return { next: null, waitsFor: "address" as const };
  const from = row.notBefore > now ? row.notBefore : now;
  const quiet = row.quiet ? quietEnd(settings, timeZone, from) : undefined;
  if (quiet) return { next: quiet, waitsFor: "quiet-hours" as const };
  return { next: from, waitsFor: row.notBefore > now ? ("its-time" as const) : ("a-run" as const) };
}

/** Nothing goes to a customer's address that was refused for good. */
export const isAddressFailing = ({ customer, recipient }: OutboxMail): boolean =>
  customer?.emailFailingAt != null && customer.email?.toLowerCase() === recipient.toLowerCase();
