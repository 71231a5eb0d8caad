// Warranty terms of the invented models; units registered in time, but for the first that missed
// its day, and one claim on its way. Years and days are invented.
import { inFirm } from "../db/scope.ts";
import { addPeriod } from "../domain/dates/period.ts";
import { judgeUnits } from "../features/warranty/judge.ts";
import { openClaim, stepClaim } from "../features/warranty/keep-claim.ts";
import { keepTerms } from "../features/warranty/keep-terms.ts";
import { keepRegistration } from "../features/warranty/keep-warranty.ts";
import type { UnitWarranty } from "../features/warranty/schemas.ts";
import { loadSettledClaim } from "./load-claims.ts";
import { loadPassports } from "./load-passports.ts";
import { loadReadings } from "./load-warranty-readings.ts";
import { type Catalogue, type Firm, type Fleet, personOf } from "./scene.ts";

const REGISTER_WITHIN_DAYS = 60;
/** The model whose warranty ends at a throughput too. */
const METERED = "BRACKEN-W9";
const REGISTERED_AFTER_DAYS = 9;
const A_PAGE = 200;

export async function loadWarranty(firm: Firm, catalogue: Catalogue, fleet: Fleet): Promise<void> {
  const by = { personId: personOf(firm, "morwenna").id, now: firm.now };
  await inFirm(firm.db, firm.firmId, async (tx) => {
    for (const model of catalogue.models.values())
      await keepTerms(tx, model.id, termsOf(model), by);
    let missed: UnitWarranty | undefined;
    const packs: UnitWarranty[] = [];
    let after: string | undefined;
    for (;;) {
      const units = await judgeUnits(tx, { after, most: A_PAGE }, firm.now);
      for (const unit of units.filter(({ reasons }) => reasons.includes("registration-missed"))) {
        if (missed) await register(unit);
        else missed = unit;
      }
      packs.push(...units.filter(({ registerBy }) => registerBy !== null));
      after = units.at(-1)?.unitId;
      if (units.length < A_PAGE) break;
    }
    if (!missed) return;
    const fault = "One cell falls behind the others under load.";
    const claim = await openClaim(tx, { unitId: missed.unitId, fault }, by);
    await stepClaim(tx, claim.id, claim.version, { state: "sent" }, by);
    await loadSettledClaim(tx, fleet, by);
    await loadPassports(tx, packs, by);
    const metered = packs.filter(({ modelCode }) => modelCode === METERED);
    await loadReadings(tx, metered, by);

    async function register({ unitId, serial, commissionedOn }: UnitWarranty): Promise<void> {
      if (commissionedOn === null) return;
      const registeredOn = addPeriod(commissionedOn, { days: REGISTERED_AFTER_DAYS });
      await keepRegistration(tx, unitId, { registeredOn, reference: `REG-${serial}` }, by);
    }
  });
}

const termsOf = ({ code, kind }: { code: string; kind: string }) => ({
  ...{ appliesFrom: "2010-01-01", evidenceNeeded: false, endMovesToWorkingDay: false },
  ...(kind === "battery-pack"
    ? { years: 10, registerWithinDays: REGISTER_WITHIN_DAYS }
    : { years: 2 }),
  ...(code === METERED ? { throughputKwh: 25_000, temperature: { lowest: 0, highest: 45 } } : {}),
});
