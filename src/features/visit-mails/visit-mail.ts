// A mail to a customer about a visit: the words in their language, the hours by the clock of the
// place, and the same as a calendar entry.
import type { Config } from "../../config.ts";
import type { TellingKind, VisitStand } from "../../domain/calendar/telling.ts";
import { writeCalendar } from "../../domain/calendar/write-calendar.ts";
import { localDay, localTime } from "../../domain/dates/zone-time.ts";
import { isLanguage, type Language } from "../../language/languages.ts";
import { longDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Letterhead } from "../firms/branding-store.ts";
import type { LetterMark } from "../firms/letter-mark.ts";
import { senderAddress } from "../mail/compose.ts";
import { mailHost } from "../mail/post.ts";
import type { MailSettings } from "../mail/settings-store.ts";
import type { NewMail } from "../mail/store.ts";
import { mailTemplate } from "../mail/template.ts";
import { standOf, type ToldVisit } from "./telling-store.ts";

const render = mailTemplate("visit");

/** Whoever writes: the firm and how it sends. */
export interface Writer {
  firm: { name: string; language: string; timeZone: string };
  letterhead: Letterhead;
  settings: MailSettings;
  config: Config;
  now: Date;
}

export interface Letter {
  kind: TellingKind | "reminder";
  visit: ToldVisit;
  /** What the customer knew until now; told where the visit has moved. */
  before?: VisitStand | undefined;
  mark: LetterMark | null;
}

export function visitMail(letter: Letter, writer: Writer): NewMail {
  const { kind, visit } = letter;
  const { firm, settings, config } = writer;
  const { customer } = visit.job.site;
  const own = customer.language ?? firm.language;
  const language: Language = isLanguage(own) ? own : "en";
  const texts = render(textsOf(letter, writer, language));
  return {
    recipient: customer.email ?? "",
    subject: texts.subject,
    textBody: texts.text,
    htmlBody: texts.html,
    host: mailHost(config),
    kind: `visit-${kind}`,
    senderName: settings.senderName ?? firm.name,
    replyTo: settings.replyTo,
    customerId: customer.id,
    visitId: visit.id,
    quiet: true,
    onceKey: onceKeyOf(letter),
    attachments: [
      calendarFile(letter, writer, language),
      ...(letter.mark ? [letter.mark.file] : []),
    ],
  };
}

/** One reminder for each start; one telling for each change of the visit. */
const onceKeyOf = ({ kind, visit }: Letter): string =>
  kind === "reminder"
    ? `visit ${visit.id} reminder ${visit.startsAt.toISOString()}`
    : `visit ${visit.id} ${visit.sequence} ${kind}`;

function textsOf({ kind, visit, before, mark }: Letter, writer: Writer, language: Language) {
  const { firm, settings, letterhead } = writer;
  const { site, reference } = visit.job;
  const stand = standOf(visit);
  const day = longDay(language, localDay(stand.startsAt, site.timeZone));
  const moved = kind === "change" && before ? before : undefined;
  const answer = settings.replyTo === null ? "mail.visit.call" : "mail.visit.answer";
  return {
    language,
    subject: say(language, `mail.visit.${kind}.subject`, { day, firm: firm.name }),
    lead: say(language, `mail.visit.${kind}.lead`, { firm: firm.name }),
    customer: site.customer.name,
    when: hoursText(language, stand, site.timeZone),
    before: moved ? hoursText(language, moved, site.timeZone) : null,
    where: placeOf(visit),
    reference,
    answer: kind === "cancellation" ? null : say(language, answer),
    ...{ firm: firm.name, letterhead, mark },
  };
}

/** "Thursday, 26 November 2026, 08:30 to 12:00", on the clock of the place. */
function hoursText(language: Language, { startsAt, endsAt }: VisitStand, timeZone: string): string {
  const [from, to] = [startsAt, endsAt].map((instant) => ({
    day: localDay(instant, timeZone),
    clock: localTime(instant, timeZone).slice(11, 16),
  })) as [{ day: string; clock: string }, { day: string; clock: string }];
  const until = from.day === to.day ? to.clock : `${longDay(language, to.day)}, ${to.clock}`;
  const day = longDay(language, from.day);
  return say(language, "mail.visit.hours", { day, from: from.clock, to: until });
}

const placeOf = ({ job: { site } }: ToldVisit): string =>
  `${site.addressLine}, ${site.locality} ${site.postcode}`;

function calendarFile({ visit, kind }: Letter, writer: Writer, language: Language) {
  const { firm, settings, config, now } = writer;
  const { site, reference } = visit.job;
  const stand = standOf(visit);
  const isCancelled = stand.state === "cancelled";
  const method = isCancelled ? "CANCEL" : "REQUEST";
  const organizerEmail = settings.replyTo ?? senderAddress(config);
  const text = writeCalendar({
    method,
    events: [
      {
        uid: visit.id,
        sequence: visit.sequence,
        stamp: now.toISOString(),
        start: stand.startsAt,
        end: stand.endsAt,
        status: isCancelled ? "CANCELLED" : "CONFIRMED",
        summary: say(language, "mail.visit.event", { firm: firm.name }),
        location: placeOf(visit),
        description: say(language, "mail.visit.eventNote", { reference }),
        place: { latitude: site.latitude, longitude: site.longitude },
        organizer: { name: settings.senderName ?? firm.name, email: organizerEmail },
        attendee: { name: site.customer.name, email: site.customer.email ?? "" },
      },
    ],
  });
  return {
    name: kind === "cancellation" ? "cancelled-visit.ics" : "visit.ics",
    contentType: `text/calendar; charset=utf-8; method=${method}`,
    content: Buffer.from(text, "utf8"),
  };
}
