// A delivery report (RFC 3464) that a person hands over marks the mail it is about. Nothing is
// believed but that the mail came back, and only about a mail of the firm itself.
import type { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { parseDeliveryStatus, type RecipientStatus } from "../../domain/mail/delivery-status.ts";
import { isAddressUseless } from "../../domain/mail/smtp-reply.ts";
import { invalid, Problem } from "../../errors.ts";
import { markAddressFailing } from "./failing-address-store.ts";
import { findReported, type MailState, markReturned, noteDelay } from "./outbox-store.ts";
import type { BounceOutcome } from "./schemas.ts";

type Outcome = z.infer<typeof BounceOutcome>;

/** The same report twice changes nothing the second time. */
export async function takeBounce(tx: FirmTransaction, raw: string, now: Date): Promise<Outcome> {
  const read = parseDeliveryStatus(raw);
  if (!read.ok) throw invalid("/body", read.problem);
  const { recipients, ...about } = read.report;
  const mail = await findReported(tx, about);
  if (!mail) throw unknownMail(about.messageId ?? about.envelopeId);
  const status = recipients.find(({ recipient }) => sameAddress(recipient, mail.recipient));
  if (!status) {
    const named = recipients.map(({ recipient }) => recipient).join(", ");
    throw invalid("/body", `The report is about ${named}; the mail went to ${mail.recipient}.`);
  }
  const reason = reasonOf(status);
  const addressFailing = status.action === "failed" && isUseless(status);
  if (status.action === "failed") await markReturned(tx, mail.id, reason);
  if (status.action === "delayed") await noteDelay(tx, mail.id, reason);
  if (addressFailing) await markAddressFailing(tx, mail.recipient, reason, now);
  return {
    mailId: mail.id,
    recipient: mail.recipient,
    action: status.action,
    state: status.action === "failed" ? "returned" : (mail.state as MailState),
    addressFailing,
  };
}

const sameAddress = (one: string, other: string): boolean =>
  one.toLowerCase() === other.toLowerCase();

const reasonOf = ({ action, status, diagnostic }: RecipientStatus): string =>
  [action === "failed" ? "Returned" : "Delayed on the way", status, diagnostic]
    .filter(Boolean)
    .join(": ");

/** By the report's own status, or by the words of the server where the status says nothing. */
function isUseless({ status, diagnostic = "" }: RecipientStatus): boolean {
  if (isAddressUseless(undefined, status)) return true;
  const code = /^\d{3}/.exec(diagnostic)?.[0];
  return status === "5.0.0" && isAddressUseless(code ? Number(code) : undefined, diagnostic);
}

const unknownMail = (id: string | undefined): Problem =>
  new Problem(
    "not-found",
    id === undefined
      ? "The report does not name the mail it is about."
      : `The report is about ${id.slice(0, 200)}, which is no mail of your firm.`,
  );
