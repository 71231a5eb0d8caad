import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { refuseMerged } from "../merges/refuse-merged.ts";
import { refuseErased } from "../privacy/refuse-erased.ts";
import { type CustomerFields, editCustomer, findCustomer, standingSites } from "./store.ts";

export interface CustomerChange extends Partial<CustomerFields> {
  archived?: boolean;
}

export async function changeCustomer(
  tx: FirmTransaction,
  id: string,
  version: number,
  { archived, ...fields }: CustomerChange,
  now: Date,
) {
  const before = await findCustomer(tx, id);
  if (!before) throw notFound("customer");
  await refuseMerged(tx, "customer", before);
  await refuseErased(tx, before);
  if (archived && !before.archivedAt) await refuseWithSites(tx, id, before.reference);
  const archivedAt = archived ? (before.archivedAt ?? now) : null;
  const change = archived === undefined ? fields : { ...fields, archivedAt };
  const row = await editCustomer(tx, id, version, change);
  if (!row) throw editedMeanwhile();
  return row;
}

/** Whoever still has a site on the lists is still a customer. */
async function refuseWithSites(tx: FirmTransaction, id: string, reference: string): Promise<void> {
  const sites = await standingSites(tx, id);
  if (sites.length === 0) return;
  const reasons = sites.map(({ reference: site, openJobs }) =>
    openJobs.length === 0 ? `${site} is on the lists` : `${site} has ${openJobs.join(", ")} open`,
  );
  throw new Problem(
    "conflict",
    `${reference} cannot be archived: ${reasons.join("; ")}. Close or cancel the jobs and ` +
      "archive the sites first, or give the sites to another customer.",
    { reasons },
  );
}
