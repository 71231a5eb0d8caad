// What stands at the sites, and what lies in the depot. Units that an installation job of the
// scenario is to install are received only.
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { addBank } from "../features/banks/store.ts";
import { installUnit } from "../features/units/install-unit.ts";
import { receiveUnit } from "../features/units/receive-unit.ts";
import { minutesAfter, moment } from "./calendar.ts";
import {
  type Catalogue,
  type Firm,
  type Fleet,
  find,
  leadOf,
  type PlacedSite,
  type PlacedUnit,
  personOf,
} from "./scene.ts";
import { sequence } from "./sequence.ts";
import { serialFor } from "./serials.ts";
import { JOBS } from "./tables/jobs.ts";
import { SETUPS, type Setup } from "./tables/sites.ts";
import { PALLETS } from "./tables/stock.ts";

const RECEIVED_DAYS_BEFORE = 24;
/** Sites are worked on side by side: the database is quicker than one transaction keeps it busy. */
const AT_ONCE = 4;

export async function loadUnits(
  firm: Firm,
  catalogue: Catalogue,
  sites: ReadonlyMap<string, PlacedSite>,
): Promise<Fleet> {
  const fleet = new Map<string, readonly PlacedUnit[]>();
  const next = sequence(23);
  const steps = [...sites.values()].map((site, index) => ({
    site,
    firstNumber: 30_011 + index * 97,
    installedDaysAgo: 260 + Math.floor(next() * 780),
  }));
  const workers = Array.from({ length: AT_ONCE }, async () => {
    for (let step = steps.shift(); step; step = steps.shift()) {
      const { site, ...how } = step;
      fleet.set(site.key, await loadSetup(firm, catalogue, site, how));
    }
  });
  await Promise.all(workers);
  for (const [name, pallet] of Object.entries(PALLETS)) {
    fleet.set(name, await loadPallet(firm, catalogue, pallet));
  }
  return fleet;
}

async function loadSetup(
  firm: Firm,
  catalogue: Catalogue,
  site: PlacedSite,
  { firstNumber, installedDaysAgo }: { firstNumber: number; installedDaysAgo: number },
): Promise<PlacedUnit[]> {
  const installedOn = firm.today.subtract({ days: installedDaysAgo });
  const receivedAt = moment(
    installedOn.subtract({ days: RECEIVED_DAYS_BEFORE }),
    "08:00",
    site.place.timeZone,
  );
  const installedAt = moment(installedOn, "15:00", site.place.timeZone);
  return inFirm(firm.db, firm.firmId, async (tx) => {
    const codes = SETUPS[site.setup];
    const units: PlacedUnit[] = [];
    for (const [index, code] of codes.entries()) {
      units.push(await receive(tx, firm, catalogue, code, firstNumber + index, receivedAt));
    }
    const standing = units.filter(({ model }) => !isAwaited(site.key, model.kind));
    const bankId = standing.some(isPack) ? await addSiteBank(tx, site) : undefined;
    for (const [index, unit] of standing.entries()) {
      const at = minutesAfter(installedAt, index);
      await install(tx, firm, site, unit, at, isPack(unit) ? bankId : undefined, index + 1);
    }
    return units;
  });
}

const isPack = ({ model }: PlacedUnit): boolean => model.kind === "battery-pack";

/** Units that stand at the sites without a job of the scenario having brought them. */
export function standingUnits(fleet: Fleet, sites: ReadonlyMap<string, PlacedSite>): PlacedUnit[] {
  return [...sites.keys()].flatMap((key) =>
    find(fleet, key).filter(({ model }) => !isAwaited(key, model.kind)),
  );
}

/** Whether an installation job brings the site's units of this kind. */
function isAwaited(siteKey: string, kind: string): boolean {
  const wanted = kind === "battery-pack" ? "packs" : "others";
  return JOBS.some(
    (job) => job.site === siteKey && job.kind === "install" && [wanted, "all"].includes(job.units),
  );
}

async function receive(
  tx: FirmTransaction,
  firm: Firm,
  catalogue: Catalogue,
  code: string,
  number: number,
  at: Date,
): Promise<PlacedUnit> {
  const model = find(catalogue.models, code);
  const { id: modelId, hardwareRevision } = model;
  const serial = serialFor(model, number);
  const personId = personOf(firm, "ines").id;
  const { unit } = await receiveUnit(tx, { modelId, serial, hardwareRevision, personId, at });
  return { id: unit.id, serial, model };
}

async function install(
  tx: FirmTransaction,
  firm: Firm,
  site: PlacedSite,
  unit: PlacedUnit,
  at: Date,
  bankId: string | undefined,
  bankPosition: number,
): Promise<void> {
  const crew = site.place.country === "FR" ? "cotentin" : "heath";
  await installUnit(tx, {
    unitId: unit.id,
    siteId: site.id,
    personId: leadOf(firm, crew).id,
    at,
    ...(bankId ? { bankId, bankPosition } : {}),
  });
}

/** The bank of a site, by the way its packs speak to its inverter. */
export async function addSiteBank(tx: FirmTransaction, site: PlacedSite): Promise<string> {
  const protocol = busOf(site.setup);
  const id = await addBank(tx, { siteId: site.id, name: "Bank 1", protocol });
  if (id === undefined) throw new Error(`${site.key} has its bank already`);
  return id;
}

export function busOf(setup: Setup): "bus-a" | "bus-b" | "stack-bus" {
  if (setup.endsWith("Stack")) return "stack-bus";
  return setup === "oneWall" ? "bus-b" : "bus-a";
}

async function loadPallet(
  firm: Firm,
  catalogue: Catalogue,
  pallet: (typeof PALLETS)[keyof typeof PALLETS],
): Promise<PlacedUnit[]> {
  const at = moment(
    firm.today.subtract({ days: pallet.receivedDaysAgo }),
    "12:00",
    "Europe/London",
  );
  return inFirm(firm.db, firm.firmId, async (tx) => {
    const units: PlacedUnit[] = [];
    for (const [index, code] of pallet.codes.entries()) {
      units.push(await receive(tx, firm, catalogue, code, pallet.firstNumber + index, at));
    }
    return units;
  });
}
