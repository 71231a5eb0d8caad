import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { latestPublished } from "../plans/store.ts";
import { findSite } from "../sites/store.ts";
import type { NewRecurringInspection, RecurringInspectionEdit } from "./schemas.ts";
import { addRecurring, editRecurring, findRecurring, type RecurringRow } from "./store.ts";

export async function startRecurring(
  tx: FirmTransaction,
  fields: NewRecurringInspection,
  personId: string,
): Promise<RecurringRow> {
  const site = await findSite(tx, fields.siteId);
  if (!site) throw invalid("/body/siteId", "There is no such site in your firm.");
  if (site.archivedAt) {
    throw invalid("/body/siteId", `Site ${site.reference} is archived: bring the site back first.`);
  }
  await requirePlan(tx, fields.planId);
  const firstDueOn = new Date(fields.firstDueOn);
  const own = { firstDueOn, nextDueOn: firstDueOn, createdById: personId };
  return readRecurring(tx, await addRecurring(tx, { ...fields, ...own }));
}

/** A change of the rhythm counts anew from the next turn. */
export async function changeRecurring(
  tx: FirmTransaction,
  id: string,
  version: number,
  { everyMonths, nextDueOn, ended, ...change }: RecurringInspectionEdit,
  now: Date,
): Promise<RecurringRow> {
  const before = await readRecurring(tx, id);
  if (change.planId) await requirePlan(tx, change.planId);
  const first = nextDueOn === undefined ? before.nextDueOn : new Date(nextDueOn);
  const isNewRhythm = everyMonths !== undefined || nextDueOn !== undefined;
  const rhythm = {
    everyMonths: everyMonths ?? before.everyMonths,
    ...{ firstDueOn: first, nextDueOn: first, firstNumber: before.nextNumber },
  };
  const endedAt = ended === undefined ? before.endedAt : ended ? (before.endedAt ?? now) : null;
  const fields = { ...change, endedAt, ...(isNewRhythm ? rhythm : {}) };
  if (!(await editRecurring(tx, id, version, fields))) throw editedMeanwhile();
  return readRecurring(tx, id);
}

export async function readRecurring(tx: FirmTransaction, id: string): Promise<RecurringRow> {
  const row = await findRecurring(tx, id);
  if (!row) throw notFound("recurring inspection");
  return row;
}

async function requirePlan(tx: FirmTransaction, planId: string): Promise<void> {
  if (await latestPublished(tx, planId)) return;
  throw invalid("/body/planId", "Your firm has no such plan with a published version.");
}
