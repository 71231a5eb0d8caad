import type { FirmTransaction } from "../../db/scope.ts";
import type { WorkDay } from "../../domain/scheduling/work-week.ts";
import { notFound } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { findSite } from "../sites/store.ts";
import { readVisitHours, writeVisitHours } from "./store.ts";

export async function hoursOfSite(tx: FirmTransaction, siteId: string) {
  const site = await findSite(tx, siteId);
  if (!site) throw notFound("site");
  return { site, visitHours: await readVisitHours(tx, siteId) };
}

export async function putHours(
  tx: FirmTransaction,
  siteId: string,
  version: number,
  hours: readonly WorkDay[],
) {
  await hoursOfSite(tx, siteId);
  if (!(await writeVisitHours(tx, siteId, version, hours))) throw editedMeanwhile();
  return readVisitHours(tx, siteId);
}
