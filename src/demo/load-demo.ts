// The demo scenario: an invented firm with its people, sites, units, plans and jobs, all made by
// the verbs that people use, so that ledgers, gates and due lists are real.
import type { Database } from "../db/client.ts";
import { loadCatalogue } from "./load-catalogue.ts";
import { loadFirm } from "./load-firm.ts";
import { loadImportedLevels, loadReleases, loadRemoteUpdates } from "./load-firmware.ts";
import { loadHours } from "./load-hours.ts";
import { loadJobs } from "./load-jobs.ts";
import { loadNonconformances } from "./load-nonconformances.ts";
import { loadSites } from "./load-sites.ts";
import { loadStock } from "./load-stock.ts";
import { loadSurveys } from "./load-surveys.ts";
import { loadTalk } from "./load-talk.ts";
import { loadUnits, standingUnits } from "./load-units.ts";
import { loadWarranty } from "./load-warranty.ts";
import { drawAlbum } from "./work-on-job.ts";

export interface LoadedDemo {
  firmId: string;
  /** Ids of the jobs by their keys in the scenario. */
  jobIds: ReadonlyMap<string, string>;
}

/**
 * Loads the scenario into a database without a firm.
 * @param dataFolder where pictures are kept
 * @param password of everyone in it
 * @param now the moment from which all its dates are counted
 */
export async function loadDemo(
  db: Database,
  dataFolder: string,
  password: string,
  now: Date,
): Promise<LoadedDemo> {
  const drawing = drawAlbum();
  const firm = await loadFirm(db, dataFolder, password, now);
  const catalogue = await loadCatalogue(firm);
  await loadReleases(firm, catalogue);
  const sites = await loadSites(firm);
  await loadSurveys(firm, sites);
  const fleet = await loadUnits(firm, catalogue, sites);
  await loadImportedLevels(firm, standingUnits(fleet, sites));
  await loadStock(firm, catalogue, fleet);
  const album = await drawing;
  const jobIds = await loadJobs({ firm, catalogue, sites, fleet, album });
  await loadTalk(firm, jobIds);
  await loadNonconformances(firm, jobIds);
  await loadHours(firm, sites, catalogue);
  await loadRemoteUpdates(firm, fleet, sites);
  await loadWarranty(firm, catalogue, fleet);
  return { firmId: firm.firmId, jobIds };
}
