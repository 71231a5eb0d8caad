// The jobs, in the order in which they were opened, each by the same verbs as people use: opened,
// booked, worked on, conceded, closed through the gate.
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { putPacks } from "../features/banks/put-packs.ts";
import { closeOutJob, reopen } from "../features/close-out/close-job.ts";
import { grantConcession } from "../features/concessions/grant-concession.ts";
import { makeLink } from "../features/handover-links/make-link.ts";
import { cancelJob, openJob } from "../features/jobs/open-job.ts";
import { raiseSnag } from "../features/snags/keep-snag.ts";
import { swapUnit } from "../features/units/swap-unit.ts";
import { bookVisit } from "../features/visits/book-visit.ts";
import { minutesAfter, moment, workingDay } from "./calendar.ts";
import { carriedInstruments } from "./instrument-sets.ts";
import { addSiteBank } from "./load-units.ts";
import { find, leadOf, type PlacedUnit, personOf, type Scene } from "./scene.ts";
import { SETS } from "./tables/instruments.ts";
import { type DemoJob, JOBS } from "./tables/jobs.ts";
import { FIRM } from "./tables/people.ts";
import { workOnJob } from "./work-on-job.ts";

/** Ids of the jobs by their keys in the scenario. */
export async function loadJobs(scene: Scene): Promise<Map<string, string>> {
  const ids = new Map<string, string>();
  for (const job of JOBS.toSorted((a, b) => a.openedOn - b.openedOn)) {
    ids.set(job.key, await loadJob(scene, job));
  }
  return ids;
}

async function loadJob(scene: Scene, job: DemoJob): Promise<string> {
  const jobId = await openAndBook(scene, job);
  const endedAt = await work(scene, job, jobId);
  await afterwards(scene, job, jobId, endedAt);
  return jobId;
}

async function openAndBook(scene: Scene, job: DemoJob): Promise<string> {
  const { firm, catalogue } = scene;
  const site = find(scene.sites, job.site);
  const units = unitsOf(scene, job).map(({ id }) => ({ unitId: id }));
  const { kind, title } = job;
  const planId = find(catalogue.planIds, job.plan);
  const openedAt = moment(workingDay(firm.today, job.openedOn), "10:20", FIRM.timeZone);
  return inFirm(firm.db, firm.firmId, async (tx) => {
    const fields = { siteId: site.id, kind, title, planId, units };
    const jobId = await openJob(tx, fields, personOf(firm, "ines").id, openedAt);
    for (const { day, from, to, note } of job.visits) {
      const crewId = find(firm.crewIds, job.crew);
      const local = { day: workingDay(firm.today, day).toString(), from, to };
      const instrumentIds = ownInstrumentIds(scene, job);
      await bookVisit(tx, jobId, { crewId, local, instrumentIds, ...(note ? { note } : {}) }, {});
    }
    return jobId;
  });
}

/** A survey needs a tape; for all else the crew takes its whole set along, in date or not. */
function ownInstrumentIds({ firm, catalogue }: Scene, job: DemoJob): string[] {
  return carriedInstruments(firm.today)
    .filter(({ set }) => set === SETS[job.crew])
    .filter(({ kind }) => job.kind !== "survey" || kind.instrumentClass === "tape")
    .map(({ reference }) => find(catalogue.instrumentIds, reference));
}

function unitsOf({ fleet }: Scene, job: DemoJob): readonly PlacedUnit[] {
  if (job.units === "pallet-1" || job.units === "pallet-2") return find(fleet, job.units);
  const units = find(fleet, job.site);
  if (job.units === "all") return units;
  return units.filter(({ model }) => {
    const isPack = model.kind === "battery-pack";
    return job.units === "packs" ? isPack : job.units === "others" && !isPack;
  });
}

/** When the crew was done; the day of opening where it has not begun. */
async function work(scene: Scene, job: DemoJob, jobId: string): Promise<Date> {
  const { firm } = scene;
  const site = find(scene.sites, job.site);
  if (!job.work) return moment(workingDay(firm.today, job.openedOn), "15:00", FIRM.timeZone);
  const day = workingDay(firm.today, job.work.day);
  const startsAt = moment(day, job.work.from, site.place.timeZone);
  const units = job.swap ? [await exchange(scene, job, jobId, startsAt)] : unitsOf(scene, job);
  return workOnJob(scene, job, { jobId, site, units, day, startsAt });
}

async function exchange(
  { firm, fleet }: Scene,
  job: DemoJob,
  jobId: string,
  at: Date,
): Promise<PlacedUnit> {
  const [old] = find(fleet, job.site);
  const [spare] = find(fleet, "spares");
  if (!old || !spare) throw new Error(`${job.key} has no pack to exchange`);
  const reason = job.swap?.reason ?? "";
  const personId = leadOf(firm, job.crew).id;
  await inFirm(firm.db, firm.firmId, (tx) =>
    swapUnit(tx, { unitId: old.id, newUnitId: spare.id, jobId, reason, personId, at }),
  );
  fleet.set(job.site, [spare, ...find(fleet, job.site).slice(1)]);
  return spare;
}

/** What became of it once the crew was done. */
async function afterwards(scene: Scene, job: DemoJob, jobId: string, doneAt: Date): Promise<void> {
  const { firm } = scene;
  const [lead, manager] = [leadOf(firm, job.crew).id, personOf(firm, "orla").id];
  await inFirm(firm.db, firm.firmId, async (tx) => {
    const { concession, snag, reason = "" } = job;
    if (snag) await raiseSnag(tx, jobId, snag, lead, minutesAfter(doneAt, 5));
    if (concession) {
      const subject = unitsOf(scene, job)[concession.subject - 1]?.id ?? "";
      const { item: itemId, reason: why, endsInDays } = concession;
      const grant = { jobId, itemId, subject, reason: why, grantedById: manager };
      const expiresOn =
        endsInDays === undefined ? undefined : firm.today.add({ days: endsInDays }).toString();
      await grantConcession(tx, { ...grant, expiresOn }, minutesAfter(doneAt, 90));
    }
    if (job.end === "cancelled") await cancelJob(tx, jobId, reason, manager, doneAt);
    if (job.end === "closed" || job.end === "reopened") {
      await close(tx, scene, job, jobId, minutesAfter(doneAt, 120));
    }
    if (job.end === "reopened") {
      await reopen(tx, jobId, manager, reason, minutesAfter(doneAt, 3 * 24 * 60));
    }
  });
}

async function close(
  tx: FirmTransaction,
  scene: Scene,
  job: DemoJob,
  jobId: string,
  at: Date,
): Promise<void> {
  const result = await closeOutJob(tx, jobId, leadOf(scene.firm, job.crew).id, at);
  if (!result.closed) {
    const sentences = result.blockers.map(({ itemId, sentence }) => `${itemId}: ${sentence}`);
    throw new Error(`${job.key} does not close. ${sentences.join(" ")}`);
  }
  if (job.kind !== "install") return;
  const link = { host: "localhost", baseUrl: "http://localhost", now: minutesAfter(at, 60) };
  const personId = personOf(scene.firm, "orla").id;
  await makeLink(tx, jobId, { days: 30, mail: false }, { ...link, personId });
  if (job.units !== "packs") return;
  const site = find(scene.sites, job.site);
  const bank = { id: await addSiteBank(tx, site), siteId: site.id };
  const packs = unitsOf(scene, job).map(({ id }, index) => ({ unitId: id, position: index + 1 }));
  await putPacks(tx, bank, packs);
}
