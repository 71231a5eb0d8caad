// What would send a crew home again tomorrow, told today: units that are not at hand, consumables
// that fall short, instruments that are not booked or not fit on the day. Where several visits draw
// on one stock, the earlier one is served first.
import { Temporal } from "temporal-polyfill";
import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import type { Kit } from "../../domain/kit/kit-for.ts";
import {
  type Shortfall,
  type StockDemand,
  shortfalls,
  stockDemands,
} from "../../domain/kit/shortfall.ts";
import { readFirm } from "../firms/store.ts";
import { standingOf } from "../instruments/standing.ts";
import { type InstrumentRow, listInstruments } from "../instruments/store.ts";
import { readKit } from "../kit/job-kit.ts";
import { listTicks } from "../kit/store.ts";
import { type ConsumableRow, listConsumables, usedByJobs } from "./consumable-store.ts";
import type { MissingVisit } from "./missing-schemas.ts";
import { type DayVisit, type ForeignUnit, unitsNotAtHand, visitsOn } from "./missing-store.ts";

const VISITS_MOST = 100;
const INSTRUMENTS_MOST = 2000;
const CODES_MOST = 2000;

export interface MissingDay {
  day: string;
  visits: number;
  items: MissingVisit[];
}

export async function readMissing(
  tx: FirmTransaction,
  asked: string | undefined,
  now: Date,
): Promise<MissingDay> {
  const day = asked ?? (await tomorrow(tx, now));
  const visits = await visitsOn(tx, day, VISITS_MOST);
  const jobs = visits.filter(
    (visit, index) => visits.findIndex(({ jobId }) => jobId === visit.jobId) === index,
  );
  const kits = new Map<string, { kit: Kit; unpacked: number }>();
  for (const { jobId: id, siteId, planVersionId } of jobs) {
    const kit = await readKit(tx, { id, siteId, planVersionId });
    const ticked = new Set((await listTicks(tx, id)).map(({ lineKey }) => lineKey));
    const unpacked = kit.items.filter(({ key }) => !ticked.has(key)).length;
    kits.set(id, { kit, unpacked });
  }
  const jobIds = jobs.map(({ jobId }) => jobId);
  const units = Map.groupBy(await unitsNotAtHand(tx, jobIds), ({ jobId }) => jobId);
  const { short, names } = await shortOf(tx, jobs, kits);
  const instruments = await listInstruments(tx, {
    ids: [...new Set(visits.flatMap(({ instrumentIds }) => instrumentIds))],
    retired: false,
    most: INSTRUMENTS_MOST,
  });
  const items = visits.map((visit) => {
    const { kit, unpacked } = kits.get(visit.jobId) ?? { kit: NO_KIT, unpacked: 0 };
    return {
      ...shownVisit(visit),
      unitsUnnamed: visit.kind === "install" && !kit.items.some((item) => item.category === "unit"),
      units: (units.get(visit.jobId) ?? []).map(shownUnit),
      consumables: short
        .filter(({ jobId }) => jobId === visit.jobId)
        .map((one) => shownShort(one, names)),
      instruments: instrumentsOf(visit, kit, instruments),
      unpacked,
    };
  });
  return { day, visits: visits.length, items: items.filter(isMissingAnything) };
}

const NO_KIT: Kit = { items: [], inTheBox: [], gaps: [] };

async function tomorrow(tx: FirmTransaction, now: Date): Promise<string> {
  const { timeZone } = await readFirm(tx);
  const today = Temporal.PlainDate.from(localDay(now.toISOString(), timeZone));
  return today.add({ days: 1 }).toString();
}

/** What a job has used already is no longer asked for. */
async function shortOf(
  tx: FirmTransaction,
  jobs: readonly DayVisit[],
  kits: ReadonlyMap<string, { kit: Kit }>,
): Promise<{ short: Shortfall[]; names: ReadonlyMap<string, ConsumableRow> }> {
  const jobIds = jobs.map(({ jobId }) => jobId);
  const used = new Map(
    (await usedByJobs(tx, jobIds)).map(({ jobId, code, amount }) => [`${jobId} ${code}`, amount]),
  );
  const demands = jobs.flatMap(({ jobId, people }) =>
    stockDemands(jobId, kits.get(jobId)?.kit.items ?? [], people)
      .map((demand) => stillWanted(demand, used.get(`${jobId} ${demand.stockCode}`) ?? 0))
      .filter(({ amount }) => amount > 0),
  );
  const codes = [...new Set(demands.map(({ stockCode }) => stockCode))];
  const rows = await listConsumables(tx, { codes, most: CODES_MOST });
  const names = new Map(rows.map((row) => [row.code, row]));
  const stock = new Map(rows.map(({ code, amount }) => [code, amount]));
  return { short: shortfalls(demands, stock), names };
}

const stillWanted = (demand: StockDemand, used: number): StockDemand => ({
  ...demand,
  amount: Math.round((demand.amount - used) * 1000) / 1000,
});

/** Each class that the kit names: booked for the visit at all, and one of it fit when it begins. */
function instrumentsOf(
  { startsAt, timeZone, instrumentIds }: DayVisit,
  kit: Kit,
  known: readonly InstrumentRow[],
): MissingVisit["instruments"] {
  const booked = known.filter(({ id }) => instrumentIds.includes(id));
  const classes = kit.items.flatMap(({ toolClass }) => toolClass ?? []);
  return classes.flatMap((toolClass): MissingVisit["instruments"] => {
    const standing = booked
      .filter(({ instrumentClass }) => instrumentClass === toolClass)
      .map((row) => ({ row, state: standingOf(row, { now: startsAt, timeZone }) }));
    const [first] = standing;
    if (!first) return [{ toolClass, problem: "not-booked", reference: null, sentence: null }];
    if (standing.some(({ state }) => state.fitNow)) return [];
    const sentence = first.state.reason?.sentence ?? null;
    return [{ toolClass, problem: "unfit", reference: first.row.reference, sentence }];
  });
}

function shownVisit(visit: DayVisit) {
  const { visitId, startsAt, timeZone, crew, place, reference, title, kind, jobId } = visit;
  const job = { id: jobId, reference, title, kind };
  return { visitId, startsAt: startsAt.toISOString(), timeZone, crew, job, place };
}

function shownUnit({ unitId, serial, modelCode, state, quarantined }: ForeignUnit) {
  const problem = quarantined ? ("quarantined" as const) : PROBLEMS[state];
  return { unitId, serial, modelCode, problem: problem ?? ("elsewhere" as const) };
}

const PROBLEMS: Readonly<Record<string, "removed" | "swapped" | undefined>> = {
  removed: "removed",
  swapped: "swapped",
};

function shownShort(
  { stockCode: code, amount, there }: Shortfall,
  names: ReadonlyMap<string, ConsumableRow>,
) {
  const row = names.get(code);
  return { code, name: row?.name ?? null, countedIn: row?.countedIn ?? null, amount, there };
}

const isMissingAnything = ({ unitsUnnamed, units, consumables, instruments }: MissingVisit) =>
  unitsUnnamed || units.length + consumables.length + instruments.length > 0;
