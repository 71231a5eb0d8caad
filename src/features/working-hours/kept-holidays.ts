import type { FirmTransaction } from "../../db/scope.ts";
import { readFirm } from "../firms/store.ts";
import { placeOfSite } from "../holidays/public-holidays.ts";
import { holidaysBetween } from "./days-off.ts";
import { placesOfSites } from "./store.ts";

export interface KeptHoliday {
  day: string;
  name: string;
  /** "GB ENG", where the firm has not said and only its sites there are closed. */
  where?: string;
}

/** Public holidays that concern the firm: those it keeps, or those where its sites are. */
export async function keptHolidays(
  tx: FirmTransaction,
  from: string,
  to: string,
): Promise<KeptHoliday[]> {
  const firm = await readFirm(tx);
  if (firm.holidayCountry !== null) {
    return [...holidaysBetween(firm, undefined, from, to)].map(([day, name]) => ({ day, name }));
  }
  const sites = (await placesOfSites(tx)).map((site) => [nameOf(site), site] as const);
  return [...new Map(sites)]
    .flatMap(([where, site]) =>
      [...holidaysBetween(firm, site, from, to)].map(([day, name]) => ({ day, name, where })),
    )
    .toSorted((one, other) => (one.day < other.day ? -1 : one.day > other.day ? 1 : 0));
}

/** Regions without holidays of their own are one place. */
const nameOf = (site: { country: string; region: string }): string => {
  const { country, region } = placeOfSite(site);
  return region === undefined ? country : `${country} ${region}`;
};
