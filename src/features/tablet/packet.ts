// A packet is what a visit needs where there is no signal. Its version is a hash of what is in it,
// so that a tablet asks for it again only when something changed, and two servers agree on it.
import { createHash } from "node:crypto";
import { instrumentState } from "../../domain/acceptance/calibration.ts";
import { RULE_VERSION } from "../../domain/closeout/gate.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import type { JobContext } from "../../domain/plan/context.ts";
import { toAnswers, toContext } from "../job-record/context.ts";
import type { PacketFacts, PacketInstrumentRow } from "./packet-store.ts";
import type { Packet } from "./schemas.ts";

/** Of the firm's instruments that nobody booked or used yet. */
const OTHERS_MOST = 100;

/** All of a packet but the plan's document, which its id and its hash stand for. */
export interface PacketBody extends Omit<Packet, "version" | "generatedAt" | "plan"> {
  plan: Omit<Packet["plan"], "document">;
}

export function packetBody(facts: PacketFacts, now: Date): PacketBody {
  const { place, visits, models, messages } = facts;
  const instruments = usefulInstruments(facts, now);
  const record = { ...facts.record, instruments };
  const context = toContext(record, now);
  const { id, reference, kind, state } = record.job;
  return {
    schema: "packet/1",
    ruleVersion: RULE_VERSION,
    unitSystem: place.unitSystem,
    job: { id, reference, kind, title: place.title, state, version: place.version },
    site: siteOf(facts),
    visits: visits.map(({ startsAt, endsAt, ...visit }) => ({
      ...visit,
      startsAt: startsAt.toISOString(),
      endsAt: endsAt.toISOString(),
    })),
    plan: {
      versionId: record.job.planVersionId,
      code: place.planCode,
      number: place.planNumber,
      sha256: place.planSha256,
    },
    ...listsOf(context, facts, instruments),
    answers: toAnswers(record.answers).map((answer) => ({ ...answer })),
    photosHeld: record.photos,
    messages: messages.map(({ writtenAt, ...message }) => ({
      ...message,
      writtenAt: writtenAt.toISOString(),
    })),
    // Of the answers that are in here: one that came in meanwhile has not been seen.
    lastOrder: record.answers.at(-1)?.receiptOrder ?? 0,
    switchMaps: Object.fromEntries(
      models.flatMap(({ code, switchMap }) => (switchMap ? [[code, switchMap]] : [])),
    ),
  };
}

export const packetVersion = (body: PacketBody): string =>
  createHash("sha256").update(canonicalize(body)).digest("hex");

function siteOf({ record, place }: PacketFacts): Packet["site"] {
  const { country, timeZone, supply, region } = record.job;
  const { siteReference, siteName, customerName, customerPhone } = place;
  const { addressLine, locality, postcode, latitude, longitude } = place;
  return {
    reference: siteReference,
    name: siteName,
    customerName,
    customerPhone,
    ...{ addressLine, locality, postcode, latitude, longitude },
    ...{ country, timeZone, supply, region },
  };
}

function listsOf(
  context: JobContext,
  { models }: PacketFacts,
  instruments: readonly PacketInstrumentRow[],
): Pick<PacketBody, "units" | "instruments" | "concessions"> {
  const names = new Map(models.map(({ code, name }) => [code, name]));
  const rows = new Map(instruments.map((row) => [row.id, row]));
  return {
    units: context.units.map((unit) => ({
      ...unit,
      modelName: names.get(unit.modelCode) ?? unit.modelCode,
    })),
    instruments: context.instruments.map((instrument) => ({
      ...instrument,
      name: rows.get(instrument.id)?.name,
      booked: rows.get(instrument.id)?.booked,
    })),
    concessions: context.concessions.map((concession) => ({ ...concession })),
  };
}

/** What is booked or was used is told whatever its state; the others only where they are fit. */
function usefulInstruments({ record, instruments }: PacketFacts, now: Date): PacketInstrumentRow[] {
  const known = instruments.filter(({ booked, answered }) => booked || answered);
  const others = instruments.filter((row) => !known.includes(row));
  const { instruments: facts } = toContext({ ...record, instruments: others }, now);
  const { timeZone } = record.job;
  const fit = others.filter((_row, index) => {
    const instrument = facts[index];
    return instrument && instrumentState(instrument, undefined, now.toISOString(), timeZone).fit;
  });
  return [...known, ...fit.slice(0, OTHERS_MOST)];
}
