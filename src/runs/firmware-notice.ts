// Once a day in the firm's own time zone: the due list is recorded and each person whom it concerns
// gets one notice of their part. The record of the day is unique, and list, notices and mails
// commit together, so
// however many instances run, and whenever one dies, a day has its notices once.
import { createHash } from "node:crypto";
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { transactionQuery } from "../db/query.ts";
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { readFirm } from "../features/firms/store.ts";
import { dueListOn, type SiteDue } from "../features/firmware/due-list.ts";
import { mailHost } from "../features/mail/post.ts";
import { queueMail } from "../features/mail/store.ts";
import type { MailText } from "../features/mail/template.ts";
import { freeSlots, looksAhead } from "../features/notices/free-slots.ts";
import { bookedFor, sitesByPerson } from "../features/notices/own-sites-store.ts";
import {
  addNotice,
  isRecorded,
  type NoticePerson,
  noticePeople,
  recordDueList,
} from "../features/notices/store.ts";
import { raiseEvent } from "../features/webhooks/raise-event.ts";
import { isLanguage } from "../language/languages.ts";
import { eachFirm, type OnFailure, type RunFirm, stopAtOnce } from "./each-firm.ts";
import { noticeDay } from "./notice-day.ts";
import { figuresOf, type NoticeGround, noticeMail } from "./notice-mail.ts";

const KIND = "firmware-due";

export interface NoticeOutcome {
  firm: string;
  day: string;
  sites: number;
  notices: { recipient: string; subject: string; text: string }[];
}

export interface NoticeOptions {
  now: Date;
  /** Whether the hour has to have come; a person who asks by hand does not wait for it. */
  waitForHour: boolean;
  /** Says what would go out and stores nothing. */
  dryRun?: boolean;
  onFailure?: OnFailure;
}

/** Goes through all firms but those that had their notice today or whose hour has not come. */
export async function sendFirmwareNotices(
  db: Database,
  config: Config,
  options: NoticeOptions,
): Promise<NoticeOutcome[]> {
  const { now, waitForHour, dryRun = false, onFailure = stopAtOnce } = options;
  const outcomes: NoticeOutcome[] = [];
  await eachFirm(db, onFailure, async (firm) => {
    const { day, hourHasCome } = noticeDay(now, firm.timeZone);
    if (waitForHour && !hourHasCome) return;
    const outcome = await inFirm(db, firm.id, (tx) => give(tx, config, firm, { day, now, dryRun }));
    if (outcome) outcomes.push(outcome);
  });
  return outcomes;
}

interface Giving {
  day: string;
  now: Date;
  dryRun: boolean;
}

async function give(
  tx: FirmTransaction,
  config: Config,
  firm: RunFirm,
  { day, now, dryRun }: Giving,
): Promise<NoticeOutcome | undefined> {
  if (await isRecorded(tx, day)) return undefined;
  const question = { firmId: firm.id, today: day, now };
  const list = await dueListOn(transactionQuery(tx), question);
  const { sites, units } = figuresOf(list);
  const told = units > 0 ? await noticesFor(tx, { firm, day, list, config }) : [];
  if (!dryRun) {
    if (!(await record(tx, day, list))) return undefined;
    const { overdue } = figuresOf(list);
    const data = { day, sites, units, overdue };
    if (units > 0) await raiseEvent(tx, { kind: "firmware.due", data }, now);
    for (const { person, mail } of told) await queueNotice(tx, mail, person, { day, now, config });
  }
  const notices = told.map(({ person, mail: { subject, text } }) => ({
    ...{ recipient: person.email, subject, text },
  }));
  return { firm: firm.name, day, sites, notices };
}

/** Everybody to be told, each with their own text. */
async function noticesFor(tx: FirmTransaction, ground: NoticeGround) {
  const { timeZone } = ground.firm;
  const { language: ofFirm } = await readFirm(tx);
  const ownSites = await sitesByPerson(tx);
  const told: { person: NoticePerson; mail: MailText }[] = [];
  for (const person of await noticePeople(tx)) {
    const booked = person.roles.includes("installer")
      ? await bookedFor(tx, person.id, looksAhead(ground.day, timeZone))
      : [];
    const language = [person.language, ofFirm].find(isLanguage) ?? "en";
    const mail = noticeMail(ground, {
      ...{ roles: person.roles, wish: person.wish, language },
      ownSites: ownSites.get(person.id) ?? new Set(),
      freeSlots: freeSlots(ground.day, timeZone, booked),
    });
    if (mail) told.push({ person, mail });
  }
  return told;
}

async function record(tx: FirmTransaction, day: string, list: SiteDue[]): Promise<boolean> {
  const { sites, units } = figuresOf(list);
  return recordDueList(tx, { day, siteCount: sites, unitCount: units, entries: list });
}

async function queueNotice(
  tx: FirmTransaction,
  { subject, text, html }: MailText,
  person: { id: string; email: string },
  { day, now, config }: { day: string; now: Date; config: Config },
): Promise<void> {
  const host = mailHost(config);
  const mail = { recipient: person.email, subject, textBody: text, htmlBody: html, host };
  const { id: mailId } = await queueMail(tx, mail, now);
  const contentSha256 = createHash("sha256").update(text).digest("hex");
  const read = { subject, body: text };
  await addNotice(tx, { kind: KIND, day, personId: person.id, contentSha256, mailId, ...read });
}
