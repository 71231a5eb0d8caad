// Requirement: a mail that was taken and came back later is known as not arrived, and why. Source:
// RFC 3464 (delivery status notifications) sections 2.1 to 2.3, RFC 6522 (multipart/report).

import { headerFields, type MessagePart, messageParts } from "./message-parts.ts";

const ACTIONS = ["failed", "delayed", "delivered", "relayed", "expanded"] as const;
const TEXT_MOST = 500;

export interface RecipientStatus {
  recipient: string;
  action: (typeof ACTIONS)[number];
  /** Enhanced status code (RFC 3463): "5.1.1". */
  status: string;
  /** The words of the server that refused, if the report has them. */
  diagnostic?: string;
}

export interface DeliveryStatus {
  /** As handed over with the mail (RFC 3461 ENVID). */
  envelopeId?: string;
  /** Message-ID of the mail the report is about, with its angle brackets. */
  messageId?: string;
  recipients: RecipientStatus[];
}

/**
 * Reads a raw message as a delivery report. Refused: messages of another kind, and reports without
 * a readable entry for a recipient.
 */
export function parseDeliveryStatus(
  raw: string,
): { ok: true; report: DeliveryStatus } | { ok: false; problem: string } {
  const parts = messageParts(raw);
  const report = parts.find(({ type }) =>
    ["message/delivery-status", "message/global-delivery-status"].includes(type),
  );
  if (!report) {
    return {
      ok: false,
      problem:
        "The message is no delivery report (RFC 3464): it has no part message/delivery-status. " +
        "Hand over the whole message as it came, with its header.",
    };
  }
  const groups = fieldGroups(report.body);
  const ofMessage = groups.find((group) => !("final-recipient" in group)) ?? {};
  const recipients = groups.flatMap((group) => recipientStatus(group) ?? []);
  if (recipients.length === 0) {
    return { ok: false, problem: "The delivery report names no recipient with an action." };
  }
  const envelopeId = ofMessage["original-envelope-id"];
  const messageId = returnedMessageId(parts.slice(parts.indexOf(report) + 1));
  return {
    ok: true,
    report: {
      recipients,
      ...(envelopeId ? { envelopeId: decodeXtext(envelopeId) } : {}),
      ...(messageId ? { messageId } : {}),
    },
  };
}

/** Groups of fields with an empty line between them (RFC 3464 2.1). */
const fieldGroups = (body: string): Record<string, string>[] =>
  body
    .split(/\r?\n[ \t]*\r?\n/)
    .map(headerFields)
    .filter((group) => Object.keys(group).length > 0);

function recipientStatus(group: Readonly<Record<string, string>>): RecipientStatus | undefined {
  const recipient = addressOf(group["final-recipient"]) ?? addressOf(group["original-recipient"]);
  const action = ACTIONS.find((one) => one === word(group.action)?.toLowerCase());
  if (recipient === undefined || action === undefined) return undefined;
  const status = /^[245]\.\d{1,3}\.\d{1,3}/.exec(group.status ?? "")?.[0] ?? "";
  const diagnostic = (group["diagnostic-code"] ?? "").replace(/^[^;]*;\s*/, "").slice(0, TEXT_MOST);
  return { recipient, action, status, ...(diagnostic ? { diagnostic } : {}) };
}

/** "rfc822; office@alder.example (comment)" gives the address. */
const addressOf = (field: string | undefined): string | undefined =>
  word(/^[^;]*;(.*)$/.exec(field ?? "")?.[1])?.replace(/^<|>$/g, "");

const word = (text: string | undefined): string | undefined =>
  text?.trim().split(/\s/)[0] || undefined;

function returnedMessageId(after: readonly MessagePart[]): string | undefined {
  for (const { type, body, fields } of after) {
    const isReturned =
      /^(?:message\/(?:rfc822|global)|text\/rfc822-headers|message\/global-headers)$/;
    const returned = isReturned.test(type) ? headerFields(body) : fields;
    const found = /<[^<>\s]+>/.exec(returned["message-id"] ?? "")?.[0];
    if (found) return found;
  }
  return undefined;
}

/** RFC 3461 section 4: "+2B" for "+". */
const decodeXtext = (text: string): string =>
  text
    .trim()
    .replace(/\+([0-9A-F]{2})/g, (_, hex) => String.fromCharCode(Number.parseInt(hex, 16)));
