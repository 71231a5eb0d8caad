// Requirement: each unit says whether its warranty stands, and why not: pending before
// commissioning, in term, at risk while a condition can still be met, lapsed once one is broken,
// expired after the last day or at the limit of throughput. A temperature outside the range puts
// the warranty at risk, not away: the maker judges it (common practice, no source).

import {
  firmwareDeadline,
  registrationDeadline,
  type WarrantyTerms,
  warrantyEnd,
} from "./terms.ts";
import { type Throughput, throughput } from "./throughput.ts";

export type WarrantyStateName = "pending" | "in-term" | "at-risk" | "lapsed" | "expired";

export type WarrantyReason =
  | "not-commissioned"
  | "period-over"
  | "throughput-used"
  | "registration-missed"
  | "registered-late"
  | "firmware-missed"
  | "firmware-late"
  | "registration-due"
  | "evidence-incomplete"
  | "firmware-due"
  | "throughput-projected"
  | "temperature-outside";

/** What a claim made today would lack. */
export type ClaimGap =
  | "commissioning"
  | "registration"
  | "evidence"
  | "firmware"
  | "throughput-reading"
  | "temperature-reading";

/** A unit's temperature on a day, in °C: the lowest and the highest seen since the last one. */
export interface TemperatureReading {
  readonly on: string;
  readonly lowest: number;
  readonly highest: number;
}

export interface WarrantyFacts {
  readonly commissionedOn?: string;
  readonly registeredOn?: string;
  readonly evidenceComplete: boolean;
  /** The first day the terms' firmware level, or a later one, was read. */
  readonly firmwareReachedOn?: string;
  readonly throughputReadings: readonly { readonly on: string; readonly kwh: number }[];
  readonly temperatureReadings: readonly TemperatureReading[];
  readonly holidays?: ReadonlySet<string>;
}

export interface WarrantyState {
  readonly state: WarrantyStateName;
  readonly reasons: readonly WarrantyReason[];
  readonly gaps: readonly ClaimGap[];
  readonly endsOn?: string;
  readonly registerBy?: string;
  readonly firmwareBy?: string;
  readonly throughput?: Throughput;
}

/** The state of one unit's warranty on a day, with every reason that applies. */
export function warrantyState(
  terms: WarrantyTerms,
  facts: WarrantyFacts,
  today: string,
): WarrantyState {
  const start = facts.commissionedOn;
  const gaps = claimGaps(terms, facts);
  if (start === undefined || start > today) {
    return { state: "pending", reasons: ["not-commissioned"], gaps };
  }
  const endsOn = warrantyEnd(terms, start, facts.holidays);
  const used = throughput(facts.throughputReadings, start, endsOn, terms.throughputKwh);
  const over = endings(terms, today, endsOn, used);
  const registerBy = registrationDeadline(terms, start);
  const firmwareBy = firmwareDeadline(terms, start);
  const broken = [
    ...judged(registerBy, facts.registeredOn, today, REGISTRATION).broken,
    ...judged(firmwareBy, facts.firmwareReachedOn, today, FIRMWARE).broken,
  ];
  const risks = [
    ...judged(registerBy, facts.registeredOn, today, REGISTRATION).due,
    ...judged(firmwareBy, facts.firmwareReachedOn, today, FIRMWARE).due,
    ...otherRisks(terms, facts, start, used),
  ];
  return {
    state: stateOf(over, broken, risks),
    reasons: [...over, ...broken, ...risks],
    gaps,
    endsOn,
    ...(registerBy === undefined ? {} : { registerBy }),
    ...(firmwareBy === undefined ? {} : { firmwareBy }),
    ...(used ? { throughput: used } : {}),
  };
}

function stateOf(
  over: readonly WarrantyReason[],
  broken: readonly WarrantyReason[],
  risks: readonly WarrantyReason[],
): WarrantyStateName {
  if (over.length > 0) return "expired";
  if (broken.length > 0) return "lapsed";
  return risks.length > 0 ? "at-risk" : "in-term";
}

function endings(terms: WarrantyTerms, today: string, endsOn: string, used?: Throughput) {
  const limit = terms.throughputKwh;
  const reasons: WarrantyReason[] = [];
  if (today > endsOn) reasons.push("period-over");
  if (used && limit !== undefined && used.usedKwh >= limit) reasons.push("throughput-used");
  return reasons;
}

interface DeadlineReasons {
  readonly due: WarrantyReason;
  readonly missed: WarrantyReason;
  readonly late: WarrantyReason;
}

const REGISTRATION: DeadlineReasons = {
  due: "registration-due",
  missed: "registration-missed",
  late: "registered-late",
};
const FIRMWARE: DeadlineReasons = {
  due: "firmware-due",
  missed: "firmware-missed",
  late: "firmware-late",
};

function judged(
  deadline: string | undefined,
  doneOn: string | undefined,
  today: string,
  names: DeadlineReasons,
): { broken: WarrantyReason[]; due: WarrantyReason[] } {
  if (deadline === undefined) return { broken: [], due: [] };
  if (doneOn !== undefined) return { broken: doneOn > deadline ? [names.late] : [], due: [] };
  return today > deadline ? { broken: [names.missed], due: [] } : { broken: [], due: [names.due] };
}

function otherRisks(terms: WarrantyTerms, facts: WarrantyFacts, start: string, used?: Throughput) {
  const risks: WarrantyReason[] = [];
  if (terms.evidenceNeeded && !facts.evidenceComplete) risks.push("evidence-incomplete");
  const limit = terms.throughputKwh;
  if (limit !== undefined && used && used.usedKwh < limit && used.projectedKwh >= limit) {
    risks.push("throughput-projected");
  }
  const range = terms.temperature;
  const outside = facts.temperatureReadings.some(
    (reading) =>
      range !== undefined &&
      reading.on >= start &&
      (reading.lowest < range.lowest || reading.highest > range.highest),
  );
  if (outside) risks.push("temperature-outside");
  return risks;
}

function claimGaps(terms: WarrantyTerms, facts: WarrantyFacts): ClaimGap[] {
  const start = facts.commissionedOn;
  const since = (reading: { readonly on: string }) => start === undefined || reading.on >= start;
  const checks: [boolean, ClaimGap][] = [
    [start === undefined, "commissioning"],
    [terms.registerWithinDays !== undefined && facts.registeredOn === undefined, "registration"],
    [terms.evidenceNeeded && !facts.evidenceComplete, "evidence"],
    [terms.firmware !== undefined && facts.firmwareReachedOn === undefined, "firmware"],
    [
      terms.throughputKwh !== undefined && !facts.throughputReadings.some(since),
      "throughput-reading",
    ],
    [
      terms.temperature !== undefined && !facts.temperatureReadings.some(since),
      "temperature-reading",
    ],
  ];
  return checks.filter(([lacking]) => lacking).map(([, gap]) => gap);
}
