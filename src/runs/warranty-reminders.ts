// Office and managers are reminded of each unit that is still to be registered, and of each
// warranty that ends soon, once. What was told is kept with the notices and mails in one
// transaction, each day of a unit as a row that can be there once, so however many instances run,
// and whenever one dies, nobody is told twice. In quiet hours, and before the hour of notices,
// nothing is written.
import { createHash } from "node:crypto";
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { addPeriod } from "../domain/dates/period.ts";
import { readFirm } from "../features/firms/store.ts";
import { mailHost } from "../features/mail/post.ts";
import { quietEnd } from "../features/mail/quiet.ts";
import { readMailSettings } from "../features/mail/settings-store.ts";
import { queueMail } from "../features/mail/store.ts";
import { addNotice, noticePeople, wasNotedOn } from "../features/notices/store.ts";
import { markTold, untoldDays } from "../features/warranty/calendar-store.ts";
import { isLanguage } from "../language/languages.ts";
import { eachFirm, type OnFailure, type RunFirm, stopAtOnce } from "./each-firm.ts";
import { noticeDay } from "./notice-day.ts";
import { warrantyMail } from "./warranty-mail.ts";

const KIND = "warranty-due";
/** Days ahead: time to register, and to claim or renew before a warranty is over. */
const AHEAD = { register: 14, ends: 60 } as const;
const DAYS_A_RUN = 500;

export interface ReminderFigures {
  units: number;
  notices: number;
}

export async function remindOfWarranties(
  db: Database,
  config: Config,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<ReminderFigures> {
  const figures: ReminderFigures = { units: 0, notices: 0 };
  await eachFirm(db, onFailure, async (firm) => {
    const { day, hourHasCome } = noticeDay(now, firm.timeZone);
    if (!hourHasCome) return;
    const told = await inFirm(db, firm.id, (tx) => remind(tx, config, firm, { day, now }));
    figures.units += told.units;
    figures.notices += told.notices;
  });
  return figures;
}

async function remind(
  tx: FirmTransaction,
  config: Config,
  firm: RunFirm,
  { day, now }: { day: string; now: Date },
): Promise<ReminderFigures> {
  const nothing = { units: 0, notices: 0 };
  if (quietEnd(await readMailSettings(tx), firm.timeZone, now)) return nothing;
  // A day has one notice: what comes up later on it is told the next day.
  if (await wasNotedOn(tx, KIND, day)) return nothing;
  const people = (await noticePeople(tx)).filter(({ roles }) =>
    roles.some((role) => role === "office" || role === "manager"),
  );
  if (people.length === 0) return nothing;
  const to = addPeriod(day, { days: AHEAD.ends });
  const registerTo = addPeriod(day, { days: AHEAD.register });
  const period = { from: day, to, registerTo, now, most: DAYS_A_RUN };
  const days = await markTold(tx, await untoldDays(tx, period), now);
  if (days.length === 0) return nothing;
  const { language: ofFirm } = await readFirm(tx);
  for (const person of people) {
    const language = [person.language, ofFirm].find(isLanguage) ?? "en";
    const mail = warrantyMail(days, { firm: firm.name, day, language, config });
    const { subject, text, html } = mail;
    const host = mailHost(config);
    const queued = { recipient: person.email, subject, textBody: text, htmlBody: html, host };
    const { id: mailId } = await queueMail(tx, queued, now);
    const contentSha256 = createHash("sha256").update(text).digest("hex");
    const notice = { kind: KIND, day, personId: person.id, contentSha256, mailId };
    await addNotice(tx, { ...notice, subject, body: text });
  }
  return { units: days.length, notices: people.length };
}
