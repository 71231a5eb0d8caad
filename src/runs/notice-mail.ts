import type { Config } from "../config.ts";
import type { SiteDue, UnitDue } from "../features/firmware/due-list.ts";
import { type MailText, mailTemplate } from "../features/mail/template.ts";

/** What a person reads through in one mail; the rest is behind the link. */
const SITES_IN_MAIL = 40;

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

/** The notice's two parts: the most urgent sites first. */
export function noticeMail(
  firmName: string,
  day: string,
  list: readonly SiteDue[],
  config: Config,
): MailText {
  const sites = list.filter((site) => site.units.length > 0).sort(byUrgency);
  return render({
    firm: firmName,
    day,
    ...figuresOf(list),
    list: sites.slice(0, SITES_IN_MAIL).map(shownSite),
    more: Math.max(sites.length - SITES_IN_MAIL, 0),
    link: new URL("/firmware", config.PUBLIC_URL ?? `http://localhost:${config.PORT}`).href,
  });
}

const leastDaysLeft = ({ units }: SiteDue): number =>
  units.reduce((least, { daysLeft }) => Math.min(least, daysLeft), Number.POSITIVE_INFINITY);

const byUrgency = (one: SiteDue, other: SiteDue): number =>
  leastDaysLeft(one) - leastDaysLeft(other) || (one.reference < other.reference ? -1 : 1);

function shownSite(site: SiteDue) {
  const { reference, addressLine, locality, timeZone, nextVisit } = site;
  const units = site.units.map((unit) => ({ ...unit, when: when(unit) }));
  const visit = nextVisit && `${nextVisit.jobReference} on ${day(nextVisit.startsAt, timeZone)}`;
  return { reference, addressLine, locality, units, visit };
}

function when({ daysLeft }: UnitDue): string {
  if (daysLeft === 0) return "today is the last day";
  const days = Math.abs(daysLeft) === 1 ? "1 day" : `${Math.abs(daysLeft)} days`;
  return daysLeft < 0 ? `${days} over` : `${days} left`;
}

const day = (time: string, timeZone: string): string =>
  new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" }).format(new Date(time));
