// A link by which somebody without an account reads the papers of one closed job, for a time.
import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { isLanguage, type Language } from "../../language/languages.ts";
import { readJob } from "../close-out/store.ts";
import { readFirm } from "../firms/store.ts";
import { appendToLedger, lockLedger } from "../ledger/store.ts";
import { queueMail } from "../mail/store.ts";
import { linkMail } from "./link-mail.ts";
import type { NewHandoverLink } from "./schemas.ts";
import {
  addLink,
  countLiveLinks,
  countOpening,
  findLink,
  type LinkRow,
  noteMail,
  revokeLink,
} from "./store.ts";

const DAY_MS = 24 * 3_600_000;
const LIVE_MOST = 20;
const hashOf = (secret: string): string => createHash("sha256").update(secret).digest("hex");

interface Ground {
  /** Of a mail's Message-ID. */
  host: string;
  now: Date;
  personId: string;
  baseUrl: string;
}

/** Makes the link, writes it on the job's ledger and, where that is wished, to the customer. */
export async function makeLink(
  tx: FirmTransaction,
  jobId: string,
  wish: NewHandoverLink,
  { host, now, personId, baseUrl }: Ground,
): Promise<{ link: LinkRow; url: string }> {
  const job = (await lockLedger(tx, jobId)) ? await readJob(tx, jobId) : null;
  if (!job) throw notFound("job");
  if (job.state !== "closed") {
    throw new Problem("conflict", `${job.reference} is not closed: a draft is not handed over.`);
  }
  const { customer } = job.site;
  if (wish.mail && (customer.email === null || customer.emailFailingAt !== null)) {
    const detail = "The customer has no address that takes mail. Mend it, or hand the link over.";
    throw new Problem("conflict", detail, { errors: [{ pointer: "/body/mail", detail }] });
  }
  if ((await countLiveLinks(tx, jobId, now)) >= LIVE_MOST) {
    throw new Problem("conflict", `${LIVE_MOST} links to this job open already. End some first.`);
  }
  const firm = await readFirm(tx);
  const language: Language =
    wish.language ?? [customer.language, firm.language].find(isLanguage) ?? "en";
  const secret = randomBytes(32).toString("base64url");
  const expiresAt = new Date(now.getTime() + wish.days * DAY_MS);
  const fields = { jobId, language, createdById: personId, createdAt: now, expiresAt };
  const link = await addLink(tx, { ...fields, secretHash: hashOf(secret) });
  const url = new URL(`/handover/${tx.firmId}/${link.id}/${secret}`, baseUrl).href;
  const body = { personId, linkId: link.id, expiresAt: expiresAt.toISOString(), mail: wish.mail };
  await appendToLedger(tx, jobId, { kind: "record.sent", body, at: now });
  if (!wish.mail) return { link, url };
  const letter = await linkMail(tx, { host, firm, job, language, url, expiresAt });
  const mail = await queueMail(tx, letter, now);
  return { link: await noteMail(tx, link.id, mail.id), url };
}

/** Ends a link at once; one that ended before stays as it is. */
export async function endLink(
  tx: FirmTransaction,
  id: string,
  { personId, now }: Pick<Ground, "personId" | "now">,
): Promise<string> {
  const link = await findLink(tx, id);
  if (!link || !(await lockLedger(tx, link.jobId))) throw notFound("link");
  if (await revokeLink(tx, id, now)) {
    const body = { personId, linkId: id };
    await appendToLedger(tx, link.jobId, { kind: "record.link-ended", body, at: now });
  }
  return link.jobId;
}

/** The link, while it opens. */
export async function openLink(
  tx: FirmTransaction,
  { id, secret }: { id: string; secret: string },
  now: Date,
): Promise<LinkRow | undefined> {
  const link = await findLink(tx, id);
  if (!link || link.revokedAt !== null || link.expiresAt <= now) return undefined;
  const same = timingSafeEqual(Buffer.from(link.secretHash), Buffer.from(hashOf(secret)));
  return same ? link : undefined;
}

/** A paper was opened by the link: counted, and once a day on the job's ledger. */
export async function keepOpening(tx: FirmTransaction, id: string, now: Date): Promise<void> {
  const link = await findLink(tx, id);
  if (!link || !(await lockLedger(tx, link.jobId))) return;
  const today = now.toISOString().slice(0, 10);
  const before = (await findLink(tx, id))?.openedAt?.toISOString().slice(0, 10);
  await countOpening(tx, id, now);
  if (before === today) return;
  await appendToLedger(tx, link.jobId, { kind: "record.opened", body: { linkId: id }, at: now });
}
