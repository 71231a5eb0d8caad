// What the loading steps hand on to each other.
import type { Temporal } from "temporal-polyfill";
import type { Database } from "../db/client.ts";
import type { Role } from "../web/roles.ts";
import type { SignedIn } from "../web/session.ts";
import type { Picture } from "./pictures.ts";
import type { DemoModel } from "./tables/models.ts";
import { CREWS, type CrewKey } from "./tables/people.ts";
import type { DemoSite } from "./tables/sites.ts";
import type { Town } from "./tables/towns.ts";

export interface Firm {
  db: Database;
  dataFolder: string;
  firmId: string;
  now: Date;
  today: Temporal.PlainDate;
  people: ReadonlyMap<string, { id: string; name: string; roles: Role[] }>;
  crewIds: ReadonlyMap<CrewKey, string>;
}

export interface Catalogue {
  models: ReadonlyMap<string, DemoModel & { id: string }>;
  planIds: ReadonlyMap<string, string>;
  /** Ids of instruments by reference. */
  instrumentIds: ReadonlyMap<string, string>;
}

export interface PlacedSite extends DemoSite {
  id: string;
  town: DemoSite["town"];
  place: Town;
}

export interface PlacedUnit {
  id: string;
  serial: string;
  model: DemoModel;
}

/** Units by site, in the order of the site's setup; pallets by their own name. */
export type Fleet = Map<string, readonly PlacedUnit[]>;

/** Pictures by crew and name. */
export type Album = ReadonlyMap<string, Picture>;

/** All that the jobs are played in. */
export interface Scene {
  firm: Firm;
  catalogue: Catalogue;
  sites: ReadonlyMap<string, PlacedSite>;
  fleet: Fleet;
  album: Album;
}

export function personOf(firm: Firm, key: string) {
  const person = firm.people.get(key);
  if (!person) throw new Error(`the scenario has no person ${key}`);
  return person;
}

/** Who answers for a crew's readings. */
export const leadOf = (firm: Firm, crew: CrewKey) => personOf(firm, CREWS[crew].people[0]);

/** The person as a route would see them. */
export function sessionOf(
  firm: Firm,
  person: { id: string; name: string; roles: Role[] },
): SignedIn {
  const { id: personId, name, roles } = person;
  return {
    firmId: firm.firmId,
    personId,
    sessionId: personId,
    name,
    roles,
    epoch: 0,
    language: "en",
    via: "bearer",
  };
}

export function find<Key, Value>(map: ReadonlyMap<Key, Value>, key: Key): Value {
  const value = map.get(key);
  if (value === undefined) throw new Error(`the scenario has no ${String(key)}`);
  return value;
}
