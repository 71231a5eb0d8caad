import { inFirm } from "../db/scope.ts";
import { addCustomer } from "../features/customers/store.ts";
import { addSite } from "../features/sites/store.ts";
import { moment } from "./calendar.ts";
import type { Firm, PlacedSite } from "./scene.ts";
import { sequence } from "./sequence.ts";
import { FIRM } from "./tables/people.ts";
import { type DemoSite, SITES } from "./tables/sites.ts";
import { TOWNS, type Town } from "./tables/towns.ts";

const TAKEN_ON_DAYS_AGO = 1150;
/** About a kilometre and a half. */
const SPREAD_DEGREES = 0.014;

export async function loadSites(firm: Firm): Promise<ReadonlyMap<string, PlacedSite>> {
  const since = firm.today.subtract({ days: TAKEN_ON_DAYS_AGO });
  const takenOn = moment(since, "09:00", FIRM.timeZone);
  const next = sequence(11);
  return inFirm(firm.db, firm.firmId, async (tx) => {
    const sites = new Map<string, PlacedSite>();
    const customerIds = new Map<string, string>();
    for (const site of SITES) {
      const place: Town = TOWNS[site.town];
      let customerId = customerIds.get(site.customer);
      if (customerId === undefined) {
        const fields = customerFields(site, place, customerIds.size);
        customerId = (await addCustomer(tx, fields, takenOn)).id;
        customerIds.set(site.customer, customerId);
      }
      const fields = siteFields(site, place, next);
      const { id } = await addSite(tx, { ...fields, customerId }, takenOn);
      sites.set(site.key, { ...site, id, place });
    }
    return sites;
  });
}

/** Numbers that the United Kingdom's and France's regulators keep for drama. */
function customerFields(site: DemoSite, place: Town, index: number) {
  const two = String(index).padStart(2, "0");
  const phone = place.country === "FR" ? `+33 2 61 91 50 ${two}` : `+44 1632 9601${two}`;
  const mailbox = site.customer
    .normalize("NFD")
    .toLowerCase()
    .replace(/[^a-z ]/g, "")
    .replaceAll(" ", ".");
  const address = `${site.addressLine}, ${place.locality}`;
  return { name: site.customer, email: `${mailbox}@mailbox.example`, phone, address };
}

function siteFields(site: DemoSite, place: Town, next: () => number) {
  const { locality, country, timeZone, region } = place;
  const off = (): number => (next() * 2 - 1) * SPREAD_DEGREES;
  const degrees = (value: number): number => Number(value.toFixed(5));
  const sector = 1 + Math.floor(next() * 8);
  const letter = (ten: string): string => ten.charAt(Math.floor(next() * 10));
  const unit = letter("ABDEFGHJLN") + letter("PQRSTUWXYZ");
  return {
    name: site.name ?? null,
    addressLine: site.addressLine,
    locality,
    postcode: country === "GB" ? `${place.postcode} ${sector}${unit}` : place.postcode,
    country,
    latitude: degrees(place.latitude + off()),
    longitude: degrees(place.longitude + off()),
    timeZone,
    region,
    supply: site.supply,
  };
}
