// Requirement: each person is told what concerns them and no more: the office everything that is
// due, an installer the sites of their own visits, a manager what is past its day and what nobody
// has taken up. Who asks for less still hears of safety releases (blueprint: a floor for safety).

export const NOTICE_WISHES = ["all", "safety"] as const;
export type NoticeWish = (typeof NOTICE_WISHES)[number];

export interface DigestUnit {
  severity: "safety" | "important" | "routine";
  /** Days to the unit's day; below zero past it. */
  daysLeft: number;
}

export interface DigestSite<Unit extends DigestUnit = DigestUnit> {
  id: string;
  units: readonly Unit[];
  /** The next update visit, where one is booked. */
  nextVisit: object | null;
}

/** Days late after which a site without a visit is put before a manager; common practice. */
export const ESCALATED_AFTER_DAYS = 14;

/**
 * The sites with what a person wants to hear of; sites without any of it are left out.
 * @param wish "safety" leaves only units below a safety release
 */
export function wantedSites<Site extends DigestSite>(
  sites: readonly Site[],
  wish: NoticeWish,
): Site[] {
  return sites
    .map((site) =>
      wish === "all"
        ? site
        : { ...site, units: site.units.filter(({ severity }) => severity === "safety") },
    )
    .filter(({ units }) => units.length > 0);
}

export interface ManagerPart<Site> {
  /** Sites with a unit past its day, the longest past first. */
  overdue: Site[];
  /** Of these, those that nobody has booked a visit for and that are long past or safety. */
  escalated: Site[];
}

/** What a manager is told: sites past their day, and which of them nobody has taken up. */
export function managerPart<Site extends DigestSite>(sites: readonly Site[]): ManagerPart<Site> {
  const overdue = sites
    .filter((site) => leastDaysLeft(site) < 0)
    .toSorted((left, right) => leastDaysLeft(left) - leastDaysLeft(right));
  const escalated = overdue.filter(
    (site) =>
      site.nextVisit === null &&
      (leastDaysLeft(site) < -ESCALATED_AFTER_DAYS ||
        site.units.some(({ severity, daysLeft }) => severity === "safety" && daysLeft < 0)),
  );
  return { overdue, escalated };
}

/** Days to the earliest day of the site's units; infinite without any. */
export const leastDaysLeft = ({ units }: DigestSite): number =>
  units.reduce((least, { daysLeft }) => Math.min(least, daysLeft), Number.POSITIVE_INFINITY);
