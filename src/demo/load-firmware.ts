// Releases and targets of the makers, and the levels that were read before and outside the jobs.
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { keepRelease, withdraw } from "../features/firmware/keep-release.ts";
import { recordReading } from "../features/firmware/record-reading.ts";
import { setTarget } from "../features/firmware/set-target.ts";
import { EVERYWHERE } from "../features/firmware/target-store.ts";
import { moment } from "./calendar.ts";
import {
  type Catalogue,
  type Firm,
  type Fleet,
  find,
  type PlacedSite,
  type PlacedUnit,
  personOf,
} from "./scene.ts";
import { sequence } from "./sequence.ts";
import { JOBS } from "./tables/jobs.ts";
import { FIRM } from "./tables/people.ts";
import { RELEASES, TARGETS } from "./tables/releases.ts";

/** The day on which the firm's old lists were brought over. */
const IMPORTED_DAYS_AGO = 255;

const at = (firm: Firm, days: number, clock: string): Date =>
  moment(firm.today.add({ days }), clock, FIRM.timeZone);

export async function loadReleases(firm: Firm, catalogue: Catalogue): Promise<void> {
  await inFirm(firm.db, firm.firmId, async (tx) => {
    const releaseIds = new Map<string, string>();
    for (const { model, releasedDay, withdrawnDay, ...release } of RELEASES) {
      const modelId = find(catalogue.models, model).id;
      const releasedOn = firm.today.add({ days: releasedDay }).toString();
      const { id } = await keepRelease(tx, { ...release, modelId, releasedOn });
      if (withdrawnDay !== undefined) {
        await withdraw(tx, id, undefined, at(firm, withdrawnDay, "12:00"));
      }
      releaseIds.set(`${model} ${release.level}`, id);
    }
    for (const { model, level, setDay, dueDay } of TARGETS) {
      const wish = {
        modelId: find(catalogue.models, model).id,
        releaseId: find(releaseIds, `${model} ${level}`),
        dueOn: firm.today.add({ days: dueDay }).toString(),
        personId: personOf(firm, "orla").id,
        version: undefined,
        scope: EVERYWHERE,
      };
      await setTarget(tx, wish, at(firm, setDay, "10:00"));
    }
  });
}

/** Every unit that stood when the lists were brought over, at the level of that time. */
export async function loadImportedLevels(
  firm: Firm,
  standing: readonly PlacedUnit[],
): Promise<void> {
  const readAt = at(firm, -IMPORTED_DAYS_AGO, "12:00");
  await inFirm(firm.db, firm.firmId, async (tx) => {
    for (const { id, model } of standing) {
      const level = model.levels.behind ?? model.levels.current;
      await keepReading(tx, firm, { unitId: id, level, readAt });
    }
  });
}

/** Units that were updated over the makers' portals since the target was set; others are not. */
export async function loadRemoteUpdates(
  firm: Firm,
  fleet: Fleet,
  sites: ReadonlyMap<string, PlacedSite>,
): Promise<void> {
  const next = sequence(37);
  await inFirm(firm.db, firm.firmId, async (tx) => {
    for (const site of sites.values()) {
      if (site.behind || isVisited(site.key)) continue;
      const units = find(fleet, site.key).filter(({ model }) => model.levels.behind !== undefined);
      const readAt = at(firm, -25 + Math.floor(next() * 23), "20:00");
      for (const { id, model } of units) {
        await keepReading(tx, firm, { unitId: id, level: model.levels.current, readAt });
      }
    }
  });
}

/** Whether a job of the scenario sees to the level itself. */
const isVisited = (siteKey: string): boolean =>
  JOBS.some(({ site, kind }) => site === siteKey && (kind === "firmware" || kind === "install"));

async function keepReading(
  tx: FirmTransaction,
  firm: Firm,
  reading: { unitId: string; level: string; readAt: Date },
): Promise<void> {
  const personId = personOf(firm, "ines").id;
  await recordReading(tx, { ...reading, source: "import", personId }, reading.readAt);
}
