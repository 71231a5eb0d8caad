import type { FirmTransaction } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { appendToLedger } from "../ledger/store.ts";
import { findPlanVersion, latestPublished } from "../plans/store.ts";
import { storedPlan } from "../plans/stored-plan.ts";
import { findSite } from "../sites/store.ts";
import { cancelVisitsToCome } from "../visits/bookings-store.ts";
import { fitUnits } from "./fit-units.ts";
import type { NewJob } from "./schemas.ts";
import { addJob, editTitle, markCancelled } from "./store.ts";
import { takeOpenJob } from "./take-job.ts";
import { appendUnits } from "./units-store.ts";

/** Opens a job and pins its plan version. Returns its id. */
export async function openJob(
  tx: FirmTransaction,
  fields: NewJob,
  personId: string,
  now: Date,
): Promise<string> {
  const { siteId, kind, title } = fields;
  await requireSite(tx, siteId);
  const version = await pinnedVersion(tx, fields);
  const unitIds = fields.units.map(({ unitId }) => unitId);
  const plan = storedPlan(version.document);
  await fitUnits(tx, unitIds, { siteId, plan }, (index) => `/body/units/${index}/unitId`);
  const row = { siteId, kind, title, planVersionId: version.id, createdById: personId };
  const id = await addJob(tx, row, now);
  await appendUnits(tx, id, unitIds);
  const body = {
    kind,
    personId,
    planVersionId: version.id,
    planVersionSha256: version.sha256,
    siteId,
    unitIds,
  };
  await appendToLedger(tx, id, { kind: "job.opened", body, at: now });
  return id;
}

async function requireSite(tx: FirmTransaction, id: string): Promise<void> {
  const site = await findSite(tx, id);
  if (!site) throw invalid("/body/siteId", "There is no such site in your firm.");
  if (!site.archivedAt) return;
  throw invalid("/body/siteId", `Site ${site.reference} is archived: bring the site back first.`);
}

async function pinnedVersion(tx: FirmTransaction, { planId, planVersionId }: NewJob) {
  if (planVersionId) {
    const version = await findPlanVersion(tx, planVersionId);
    const pointer = "/body/planVersionId";
    if (!version) throw invalid(pointer, "There is no such plan version in your firm.");
    if (version.state === "published") return version;
    throw invalid(pointer, "This plan version is a draft. Publish it first, or name another.");
  }
  const version = await latestPublished(tx, planId ?? "");
  if (version) return version;
  throw invalid("/body/planId", "Your firm has no such plan with a published version.");
}

export async function editJob(
  tx: FirmTransaction,
  id: string,
  version: number,
  title: string | undefined,
): Promise<void> {
  const job = await takeOpenJob(tx, id);
  if (!(await editTitle(tx, id, version, title ?? job.title))) throw editedMeanwhile();
}

/** Ends an open job that will not be done; its visits to come are cancelled with it. */
export async function cancelJob(
  tx: FirmTransaction,
  id: string,
  reason: string,
  personId: string,
  now: Date,
): Promise<void> {
  await takeOpenJob(tx, id);
  const visitIds = await cancelVisitsToCome(tx, id, now);
  await markCancelled(tx, id);
  const body = { personId, reason, visitIds };
  await appendToLedger(tx, id, { kind: "job.cancelled", body, at: now });
}
