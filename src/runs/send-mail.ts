// The outbox goes out firm by firm. Each attempt is claimed and counted before it is made, and the
// mail is marked as sent after the server took it. If this process dies between the two, the claim
// runs out and the mail goes once more, under the same Message-ID, by which a receiver can tell a
// double. That is chosen over the other order: a rare double is better than a mail that never came.
// An address refused for good gets nothing more until somebody has mended it.
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import {
  claimMail,
  giveUpMails,
  markRefused,
  markSent,
  type WaitingMail,
} from "../features/mail/claim-store.ts";
import { markAddressFailing } from "../features/mail/failing-address-store.ts";
import { listUnfiled, markFiled } from "../features/mail/outbox-store.ts";
import type { Delivery, Post } from "../features/mail/post.ts";
import { quietEnd } from "../features/mail/quiet.ts";
import { type MailSettings, readMailSettings } from "../features/mail/settings-store.ts";
import { eachFirm, type OnFailure, type RunFirm, stopAtOnce } from "./each-firm.ts";

/** After each attempt but the last; with a server away overnight a person resends by hand. */
const RETRY_MINUTES = [1, 5, 15, 60, 240] as const;
const ATTEMPTS_MOST = RETRY_MINUTES.length + 1;
const LEASE_MS = 10 * 60_000;
const MAILS_A_RUN = 200;
/** RFC 5321 4.5.4.1: a sender gives up after 4 to 5 days. */
const UNTRIED_MOST_MS = 5 * 24 * 3_600_000;

export interface MailFigures {
  sent: number;
  filed: number;
  postponed: number;
  failed: number;
}

type SmtpPost = Extract<Post, { kind: "smtp" }>;
type FilePost = Extract<Post, { kind: "files" }>;

/** At most MAILS_A_RUN mails of each firm; stops where the server answers none. */
export async function sendWaitingMail(
  db: Database,
  post: Post,
  now: () => Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<MailFigures> {
  const figures: MailFigures = { sent: 0, filed: 0, postponed: 0, failed: 0 };
  let answered = true;
  await eachFirm(db, onFailure, async (firm) => {
    if (post.kind === "files") await fileMails(db, firm.id, post, now, figures);
    else if (answered) answered = await sendMails(db, firm, post, now, figures);
  });
  return figures;
}

async function fileMails(
  db: Database,
  firmId: string,
  post: FilePost,
  now: () => Date,
  figures: MailFigures,
): Promise<void> {
  const mails = await inFirm(db, firmId, (tx) => listUnfiled(tx, now(), MAILS_A_RUN));
  for (const mail of mails) {
    await post.file(mail);
    await inFirm(db, firmId, (tx) => markFiled(tx, mail.id));
    figures.filed += 1;
  }
}

/** False when the server answered nobody. */
async function sendMails(
  db: Database,
  { id: firmId, timeZone }: RunFirm,
  post: SmtpPost,
  now: () => Date,
  figures: MailFigures,
): Promise<boolean> {
  const untriedSince = new Date(now().getTime() - UNTRIED_MOST_MS);
  const limits = { now: now(), attemptsMost: ATTEMPTS_MOST, untriedSince };
  const settings = await inFirm(db, firmId, async (tx) => {
    figures.failed += await giveUpMails(tx, limits);
    return readMailSettings(tx);
  });
  for (let count = 0; count < MAILS_A_RUN; count += 1) {
    const mail = await inFirm(db, firmId, (tx) =>
      claimMail(tx, claimAt(now(), settings, timeZone)),
    );
    if (!mail) return true;
    const delivery = await post.send(mail);
    figures[await report(db, firmId, mail, delivery, now())] += 1;
    if (delivery.kind === "no-server") return false;
  }
  return true;
}

const claimAt = (now: Date, settings: MailSettings, timeZone: string) => ({
  now,
  quietNow: quietEnd(settings, timeZone, now) !== undefined,
  leaseUntil: new Date(now.getTime() + LEASE_MS),
  attemptsMost: ATTEMPTS_MOST,
});

async function report(
  db: Database,
  firmId: string,
  mail: WaitingMail,
  delivery: Delivery,
  now: Date,
): Promise<keyof MailFigures> {
  if (delivery.kind === "sent") {
    await inFirm(db, firmId, (tx) => markSent(tx, mail.id, now));
    return "sent";
  }
  const minutes = RETRY_MINUTES[mail.attempts - 1];
  const again = delivery.kind !== "for-good" && minutes !== undefined;
  await inFirm(db, firmId, async (tx) => {
    await markRefused(tx, mail, {
      state: again ? "waiting" : "failed",
      lastError: delivery.reason,
      notBefore: new Date(now.getTime() + (minutes ?? 0) * 60_000),
    });
    if (delivery.kind !== "for-good" || !delivery.addressUseless) return;
    await markAddressFailing(tx, mail.recipient, delivery.reason, now);
  });
  return again ? "postponed" : "failed";
}
