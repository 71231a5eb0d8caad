// The facts about a job that verdicts rest on besides the answers. Nothing here is looked up: the
// caller hands it in, so the same facts give the same verdict on the server, on a tablet and years
// later.
import type { SerialRule } from "../identifiers/serial-rule.ts";
import type { UnitKind } from "./item.ts";

export interface SiteFacts {
  supply: string;
  region: string;
  country: string;
  /** IANA zone; calibration and concessions are judged by the site's calendar. */
  timeZone: string;
}

export interface UnitFacts {
  id: string;
  serial: string;
  kind: UnitKind;
  modelCode: string;
  hardwareRevision?: string;
  /** Place in the job's list, from 1. */
  position: number;
  attributes: Readonly<Record<string, string | number | boolean>>;
  serialRule?: SerialRule;
}

export interface Accuracy {
  /** Percent of the value read. */
  percentOfReading?: number;
  /** Percent of the end of the instrument's range. */
  percentOfRange?: number;
  /** Steps of the display's last place. */
  digits?: number;
  /** Percent of the value a torque tool is set to. */
  percentOfSetting?: number;
}

export interface InstrumentFacts {
  id: string;
  reference: string;
  class: string;
  accuracy?: Accuracy;
  range?: { max: number; unit: string };
  resolution?: { step: number; unit: string };
  /** Plain dates; `due` is the last day in date. */
  calibrations: readonly { on: string; due: string; passed: boolean }[];
  retiredOn?: string;
  /** What happened to it, earliest first; of one moment in the order of entry. */
  events?: readonly InstrumentEventFacts[];
  /** Cycles of a torque tool from one calibration to the next. */
  intervalCycles?: number;
  /** What it was used for: by other jobs, and by this one up to the receipt order `usesThrough`. */
  uses?: readonly InstrumentUse[];
  usesThrough?: number;
}

/** What takes an instrument out of use between calibrations, and what brings it back. */
export interface InstrumentEventFacts {
  kind: "overload" | "dropped" | "recheck-passed" | "recheck-failed";
  /** RFC 3339 with the offset of the place. */
  at: string;
}

/** Cycles of a torque tool on one day, as written at the place. */
export interface InstrumentUse {
  day: string;
  cycles: number;
  /** Receipt order of the first answer of this job that was judged knowing of them. */
  fromOrder: number;
}

export interface ConcessionFacts {
  id: string;
  itemId: string;
  subject: string;
  grantedBy: string;
  /** Last day it holds, by the site's calendar. */
  expiresOn?: string;
  revoked?: boolean;
}

export interface JobContext {
  site: SiteFacts;
  units: readonly UnitFacts[];
  instruments: readonly InstrumentFacts[];
  concessions: readonly ConcessionFacts[];
  /** SHA-256 of the photos that have arrived; left out where that is not known (the tablet). */
  photosHeld?: ReadonlySet<string>;
  /** RFC 3339 time at which the judging is done. */
  now: string;
}
