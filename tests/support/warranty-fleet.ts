// A fleet of units whose warranties stand in every way, made straight in the database by chance.
import { uuidv7 } from "uuidv7";
import { type FirmTransaction, inFirm } from "../../src/db/scope.ts";
import { addPeriod } from "../../src/domain/dates/period.ts";
import type { TestService } from "./app.ts";
import type { Chance } from "./chance.ts";
import { addModel, addSite, type Made } from "./stock.ts";

const FIRMWARE_KEY = 1000n;

export interface Fleet {
  models: Made[];
  site: Made;
}

/** Models each with terms of their own, the last with none, and units of all, around `today`. */
export async function addWarrantyFleet(
  service: TestService,
  chance: Chance,
  { today, models: count, units }: { today: string; models: number; units: number },
): Promise<Fleet> {
  const models = await Promise.all(Array.from({ length: count }, () => addModel(service)));
  const site = await addSite(service);
  const personId = service.firm.people.office.id;
  await inFirm(service.db, service.firm.firmId, async (tx) => {
    const [plain, ...bound] = models.slice(0, -1);
    if (plain)
      await addTerms(tx, plain.id, { share: () => 0.9, between: chance.between }, personId);
    for (const { id } of bound) await addTerms(tx, id, chance, personId);
    for (let at = 0; at < units; at += 1) {
      const unit = { serial: `WF${at}`, modelId: chance.pick(models).id, siteId: site.id };
      await addUnit(tx, unit, { chance, today, personId });
    }
  });
  return { models, site };
}

async function addTerms(
  tx: FirmTransaction,
  modelId: string,
  chance: Pick<Chance, "share" | "between">,
  personId: string,
): Promise<void> {
  const { firmId } = tx;
  const some = <Value>(value: Value): Value | null => (chance.share() < 0.5 ? value : null);
  const isHot = chance.share() < 0.5;
  const hasFirmware = chance.share() < 0.5;
  await tx.warrantyTerms.create({
    data: {
      ...{ firmId, id: uuidv7(), modelId, number: 1, appliesFrom: new Date("2000-01-01") },
      ...{ years: chance.between(1, 3), throughputKwh: some(chance.between(500, 3000)) },
      ...{ registerWithinDays: some(chance.between(1, 90)), evidenceNeeded: chance.share() < 0.2 },
      ...{ firmwareLevel: hasFirmware ? "2.0.0" : null, firmwareKey: some(FIRMWARE_KEY) },
      firmwareWithinDays: hasFirmware ? chance.between(1, 90) : null,
      ...{ temperatureLowest: isHot ? 0 : null, temperatureHighest: isHot ? 45 : null },
      ...{ endMovesToWorkingDay: chance.share() < 0.5, createdById: personId },
    },
  });
}

interface Ground {
  chance: Chance;
  today: string;
  personId: string;
}

async function addUnit(
  tx: FirmTransaction,
  unit: { serial: string; modelId: string; siteId: string },
  { chance, today, personId: createdById }: Ground,
): Promise<void> {
  const { firmId } = tx;
  const unitId = uuidv7();
  const day = addPeriod(today, { days: -chance.between(-150, 1200) });
  const later = () => new Date(addPeriod(day, { days: chance.between(0, 120) }));
  await tx.unit.create({ data: { firmId, id: unitId, state: "installed", ...unit } });
  const at = new Date(`${day}T10:00:00Z`);
  const event = { firmId, id: uuidv7(), unitId, siteId: unit.siteId, kind: "installed", at };
  await tx.unitEvent.create({ data: event });
  if (chance.share() < 0.6) {
    const registration = { firmId, unitId, registeredOn: later(), reference: "R", createdById };
    await tx.warrantyRegistration.create({ data: registration });
  }
  if (chance.share() < 0.6) {
    const level = { level: "2.0.0", levelKey: FIRMWARE_KEY, source: "api", readAt: later() };
    await tx.firmwareReading.create({ data: { firmId, id: uuidv7(), unitId, ...level } });
  }
  if (chance.share() < 0.6) {
    const kwh = { throughputKwh: chance.between(0, 2500), readOn: later() };
    const cold = { temperatureLowest: chance.between(-3, 10), temperatureHighest: 40 };
    const row = { firmId, id: uuidv7(), unitId, createdById, ...kwh };
    await tx.warrantyReading.create({ data: chance.share() < 0.5 ? row : { ...row, ...cold } });
  }
}
