// Requirement: an address that does not exist is not written to again until somebody has mended it,
// and no address is called bad for a full mailbox, a busy server or a text that was disliked.
// Sources: RFC 5321 4.2.1 (4yz for now, 5yz for good) and 4.2.3 (what the codes mean); RFC 3463
// sections 3.2 and 3.3 and RFC 7505 section 4.1 (enhanced status codes that concern the recipient's
// address; 5.1.7 and 5.1.8 concern the sender's).

/** Mailbox unavailable, user not local, mailbox name not allowed. */
const ADDRESS_CODES = new Set([550, 551, 553]);
const ADDRESS_STATUSES = new Set(["1.1", "1.2", "1.3", "1.4", "1.6", "1.10", "2.1"]);
const STATUS = /(?:^|[^\d.])([245])\.(\d{1,3})\.(\d{1,3})(?![\d.])/;

export interface EnhancedStatus {
  class: number;
  subject: number;
  detail: number;
}

/** The first enhanced status code in a text ("550 5.1.1 No such user"); undefined without one. */
export function enhancedStatus(text: string): EnhancedStatus | undefined {
  const [, kind, subject, detail] = STATUS.exec(text) ?? [];
  if (kind === undefined) return undefined;
  return { class: Number(kind), subject: Number(subject), detail: Number(detail) };
}

/**
 * Whether a refusal says that the recipient's address is of no use for good.
 * @param code reply code of RFC 5321, undefined where there was none
 * @param text the server's words
 */
export function isAddressUseless(code: number | undefined, text: string): boolean {
  if (code !== undefined && (code < 500 || code > 599)) return false;
  const status = enhancedStatus(text);
  if (!status) return code !== undefined && ADDRESS_CODES.has(code);
  return status.class === 5 && ADDRESS_STATUSES.has(`${status.subject}.${status.detail}`);
}
