// Product models, published plans and instruments.
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { calibrateInstrument, takeOnInstrument } from "../features/instruments/keep-instrument.ts";
import { publishVersion, writePlan } from "../features/plans/keep-plan.ts";
import { STARTER_PLANS } from "../features/plans/starter-plans.ts";
import { setUpModel } from "../features/product-models/set-up-model.ts";
import { moment } from "./calendar.ts";
import { type CarriedInstrument, carriedInstruments } from "./instrument-sets.ts";
import { type Catalogue, type Firm, personOf } from "./scene.ts";
import { MODELS } from "./tables/models.ts";
import { FIRM } from "./tables/people.ts";

const PLANS_PUBLISHED_DAYS_AGO = 900;

export async function loadCatalogue(firm: Firm): Promise<Catalogue> {
  return inFirm(firm.db, firm.firmId, async (tx) => ({
    models: await loadModels(tx),
    planIds: await loadPlans(tx, firm),
    instrumentIds: await loadInstruments(tx, firm),
  }));
}

async function loadModels(tx: FirmTransaction): Promise<Catalogue["models"]> {
  const models = new Map();
  for (const model of MODELS) {
    const { hardwareRevision: _revision, levels: _levels, ...fields } = model;
    const { id } = await setUpModel(tx, fields);
    models.set(model.code, { ...model, id });
  }
  return models;
}

async function loadPlans(tx: FirmTransaction, firm: Firm): Promise<Catalogue["planIds"]> {
  const planIds = new Map<string, string>();
  const publishedAt = moment(
    firm.today.subtract({ days: PLANS_PUBLISHED_DAYS_AGO }),
    "17:00",
    FIRM.timeZone,
  );
  for (const { code, document } of STARTER_PLANS) {
    const { id } = await writePlan(tx, { code, title: document.title, document });
    const place = { planId: id, number: 1 };
    await publishVersion(tx, place, undefined, personOf(firm, "morwenna").id, publishedAt);
    planIds.set(code, id);
  }
  return planIds;
}

async function loadInstruments(
  tx: FirmTransaction,
  firm: Firm,
): Promise<Catalogue["instrumentIds"]> {
  const instrumentIds = new Map<string, string>();
  for (const instrument of carriedInstruments(firm.today)) {
    instrumentIds.set(instrument.reference, await loadInstrument(tx, instrument, firm.now));
  }
  return instrumentIds;
}

async function loadInstrument(
  tx: FirmTransaction,
  { reference, kind, serial, calibratedOn }: CarriedInstrument,
  now: Date,
): Promise<string> {
  const { letters: _letters, ...fields } = kind;
  const instrument = { ...fields, reference, serial, intervalMonths: 12 };
  const id = await takeOnInstrument(tx, instrument);
  for (const day of calibratedOn) {
    const certificate = `${reference}-${day.slice(0, 7)}`;
    await calibrateInstrument(tx, id, { calibratedOn: day, passed: true, certificate }, now);
  }
  return id;
}
