import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { findCustomer } from "../customers/store.ts";
import { refuseMerged } from "../merges/refuse-merged.ts";
import { addSite, editSite, findSite, openJobsAt, type SiteFields } from "./store.ts";

export async function takeOnSite(tx: FirmTransaction, fields: SiteFields, now: Date) {
  await requireCustomer(tx, fields.customerId);
  return addSite(tx, fields, now);
}

export interface SiteChange extends Partial<SiteFields> {
  archived?: boolean;
}

export async function changeSite(
  tx: FirmTransaction,
  id: string,
  version: number,
  { archived, ...fields }: SiteChange,
  now: Date,
) {
  const before = await findSite(tx, id);
  if (!before) throw notFound("site");
  await refuseMerged(tx, "site", before);
  if (fields.customerId !== undefined && fields.customerId !== before.customerId) {
    await requireCustomer(tx, fields.customerId);
  }
  if (archived) await refuseWithOpenJobs(tx, id, before.reference);
  const archivedAt = archived ? (before.archivedAt ?? now) : null;
  const change = archived === undefined ? fields : { ...fields, archivedAt };
  const row = await editSite(tx, id, version, change);
  if (!row) throw editedMeanwhile();
  return row;
}

async function requireCustomer(tx: FirmTransaction, id: string): Promise<void> {
  const customer = await findCustomer(tx, id);
  if (!customer) throw invalid("/body/customerId", "There is no such customer in your firm.");
  if (customer.archivedAt) {
    const detail = `Customer ${customer.reference} is archived: bring the customer back first.`;
    throw invalid("/body/customerId", detail);
  }
}

async function refuseWithOpenJobs(
  tx: FirmTransaction,
  id: string,
  reference: string,
): Promise<void> {
  const { count: openJobCount, references } = await openJobsAt(tx, id);
  if (openJobCount === 0) return;
  const jobs = openJobCount === 1 ? "an open job" : `${openJobCount} open jobs`;
  const names = references.join(", ");
  const wayOut = "Close or cancel first, then archive the site.";
  const detail = `${reference} has ${jobs} (${names}). ${wayOut}`;
  throw new Problem("conflict", detail, { openJobCount, reasons: references });
}
