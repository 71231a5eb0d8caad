import type { Config } from "../config.ts";
import { managerPart, type NoticeWish, wantedSites } from "../domain/firmware/digest.ts";
import type { SiteDue, UnitDue } from "../features/firmware/due-list.ts";
import { type MailText, mailTemplate } from "../features/mail/template.ts";
import type { FreeSlot } from "../features/notices/free-slots.ts";
import type { Language } from "../language/languages.ts";
import { dayAndTime, shortDay } from "../language/moments.ts";
import { say } from "../language/say.ts";
import type { Role } from "../web/roles.ts";

/** What a person reads through in one mail; the rest is behind the link. */
const SITES_IN_MAIL = 40;
const ESCALATED_IN_MAIL = 20;

const render = mailTemplate("firmware-notice");

export interface NoticeFigures {
  sites: number;
  units: number;
  overdue: number;
  unclear: number;
}

export function figuresOf(list: readonly SiteDue[]): NoticeFigures {
  const units = list.flatMap((site) => site.units);
  return {
    sites: list.filter((site) => site.units.length > 0).length,
    units: units.length,
    overdue: units.filter(({ state }) => state === "overdue").length,
    unclear: list.reduce((sum, site) => sum + site.unclear.length, 0),
  };
}

export interface NoticeReader {
  roles: readonly Role[];
  language: Language;
  wish: NoticeWish;
  /** Sites whose latest visit the person is booked for. */
  ownSites: ReadonlySet<string>;
  freeSlots: readonly FreeSlot[];
}

export interface NoticeGround {
  firm: { name: string; timeZone: string };
  day: string;
  list: readonly SiteDue[];
  config: Config;
}

/** A person's notice, the most urgent sites first; undefined where nothing is for them. */
export function noticeMail(ground: NoticeGround, reader: NoticeReader): MailText | undefined {
  const { firm, day, list, config } = ground;
  const { language, roles } = reader;
  const wanted = wantedSites(list, reader.wish);
  const manager = managerPart(wanted);
  const mine = roles.includes("office")
    ? wanted
    : wanted.filter(
        (site) =>
          (roles.includes("manager") && manager.overdue.includes(site)) ||
          (roles.includes("installer") && reader.ownSites.has(site.id)),
      );
  if (mine.length === 0) return undefined;
  const ordered = mine.toSorted(byUrgency);
  const unclear = roles.includes("office") ? list : mine;
  const escalated = roles.includes("manager") ? manager.escalated : [];
  return render({
    ...{ language, firm: firm.name, day },
    ...figuresOf(ordered),
    unclear: figuresOf(unclear).unclear,
    list: ordered.slice(0, SITES_IN_MAIL).map((site) => shownSite(site, language)),
    more: Math.max(ordered.length - SITES_IN_MAIL, 0),
    escalated: escalated
      .slice(0, ESCALATED_IN_MAIL)
      .map(({ reference }) => reference)
      .join(", "),
    escalatedCount: escalated.length,
    slots: roles.includes("installer")
      ? reader.freeSlots.map((slot) => slotText(slot, firm.timeZone, language)).join("; ")
      : "",
    onlySafety: reader.wish === "safety",
    link: new URL("/firmware", config.PUBLIC_URL ?? `http://localhost:${config.PORT}`).href,
  });
}

const leastDaysLeft = ({ units }: SiteDue): number =>
  units.reduce((least, { daysLeft }) => Math.min(least, daysLeft), Number.POSITIVE_INFINITY);

const byUrgency = (one: SiteDue, other: SiteDue): number =>
  leastDaysLeft(one) - leastDaysLeft(other) || (one.reference < other.reference ? -1 : 1);

function shownSite(site: SiteDue, language: Language) {
  const { reference, addressLine, locality, timeZone, nextVisit } = site;
  const units = site.units.map((unit) => ({
    ...unit,
    severity: say(language, `fleet.severity.${unit.severity}`),
    when: when(unit, language),
  }));
  const visit =
    nextVisit &&
    say(language, "notice.visitOn", {
      job: nextVisit.jobReference,
      day: dayAndTime(language, new Date(nextVisit.startsAt), timeZone),
    });
  return { reference, addressLine, locality, units, visit };
}

function when({ daysLeft }: UnitDue, language: Language): string {
  if (daysLeft === 0) return say(language, "notice.lastDay");
  const days = Math.abs(daysLeft);
  return say(language, daysLeft < 0 ? "due.daysOver" : "due.daysLeft", { days });
}

function slotText({ day, from, to }: FreeSlot, timeZone: string, language: Language): string {
  const clock = (time: Date) => dayAndTime(language, time, timeZone).slice(-5);
  const hours = say(language, "today.fromTo", { from: clock(from), to: clock(to) });
  return `${shortDay(language, day)} ${hours}`;
}
