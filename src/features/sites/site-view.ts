import type { Database } from "../../db/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { drawPlaces } from "../../domain/charts/place-chart.ts";
import { drawMap } from "../../domain/charts/tile-map.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { SiteDue } from "../firmware/due-list.ts";
import { judgeUnits } from "../warranty/judge.ts";
import { warrantyLine } from "../warranty/warranty-view.ts";
import { neighboursOf, readHoldings } from "./page-store.ts";
import { dueAtSite } from "./site-due.ts";

export interface Place {
  id: string;
  reference: string;
  latitude: number;
  longitude: number;
  timeZone: string;
}

const NEIGHBOURS_MOST = 12;
/** Half a page wide; on a narrow screen its letters can still be read. */
const PLAN_SIZE = { width: 420, height: 280 };

/** The site in the middle of the firm's others, to scale. */
export async function planOf(tx: FirmTransaction, site: Place, language: ShownLanguage) {
  const near = await neighboursOf(tx, site, NEIGHBOURS_MOST);
  const title = say(language, "registry.planOf", { reference: site.reference, sites: near.length });
  const own = { ...site, sites: 4, standing: "here", name: site.reference } as const;
  const others = near.map((one) => ({
    ...one,
    ...{ sites: 1, standing: "near" as const, href: `/sites/${one.id}` },
    name: `${one.reference} ${one.addressLine}`,
  }));
  return { drawing: drawPlaces([...others, own], title, PLAN_SIZE), neighbours: near };
}

const STREETS_ZOOM = 16;

/** The site on a map, where the service knows a server of tiles. */
export const mapOf = (site: Place, template: string | undefined): string | undefined =>
  template && drawMap({ ...site, template, zoom: STREETS_ZOOM, title: site.reference });

/** Units with what is known of each, and what is open. */
export async function holdingsOf(
  tx: FirmTransaction,
  site: Place,
  { due, now, language }: { due: SiteDue | undefined; now: Date; language: ShownLanguage },
) {
  const held = await readHoldings(tx, site.id, now);
  const at = (time: Date) => dayAndTime(language, time, site.timeZone);
  const states = unitsDue(due, language);
  const judged = await judgeUnits(tx, { siteId: site.id, most: held.unitsMost }, now);
  const warranties = new Map(judged.map((row) => [row.unitId, warrantyLine(row, language)]));
  return {
    units: held.units.slice(0, held.unitsMost).map((unit) => ({
      ...{ id: unit.id, serial: unit.serial, level: unit.firmwareLevel },
      ...{ bank: unit.bank?.name, bankId: unit.bankId, bankPosition: unit.bankPosition },
      model: `${unit.model.code} ${unit.model.name}`,
      since: held.commissioned.get(unit.id) && at(held.commissioned.get(unit.id) as Date),
      warranty: warranties.get(unit.id),
      byModel: warrantyOf(unit.model.attributes as Attributes, language),
      due: states.get(unit.id),
    })),
    moreUnits: held.units.length > held.unitsMost,
    openJobs: held.jobs,
    visits: held.visits.map((visit) => ({ ...visit, when: at(visit.startsAt) })),
    snags: held.snags.map((snag) => ({ ...snag, when: at(snag.raisedAt) })),
    concessions: held.concessions.map((one) => ({
      ...one,
      until: one.expiresOn && plainDay(language, one.expiresOn.toISOString().slice(0, 10)),
    })),
  };
}

type Attributes = Readonly<Record<string, unknown>>;

/** What the product model says, for units whose model has no terms stored. */
function warrantyOf(attributes: Attributes, language: ShownLanguage): string | undefined {
  const years = attributes.warrantyYears;
  return typeof years === "number" ? say(language, "registry.warrantyYears", { years }) : undefined;
}

interface DueTag {
  text: string;
  tag: string;
  mark: string;
}

function unitsDue(due: SiteDue | undefined, language: ShownLanguage) {
  const below = (due?.units ?? []).map((unit) => {
    const late = unit.daysLeft < 0;
    const day = plainDay(language, unit.dueOn);
    const text = say(language, late ? "registry.wasDue" : "registry.isDue", { to: unit.to, day });
    return [unit.id, { text, tag: late ? "bad" : "warn", mark: late ? "✕" : "▲" }] as const;
  });
  const unclear = (due?.unclear ?? []).map((unit) => {
    const text = say(language, "registry.levelUnclear", { to: unit.to });
    return [unit.id, { text, tag: "warn", mark: "?" }] as const;
  });
  return new Map<string, DueTag>([...below, ...unclear]);
}

export const dueOf = (db: Database, firmId: string, siteId: string, now: Date) =>
  dueAtSite(db, { firmId, siteId, now });
