import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { latestPublished } from "../plans/store.ts";
import { findSite } from "../sites/store.ts";
import type { NewRecurringInspection, RecurringInspectionEdit } from "./schemas.ts";
import {
  addRecurring,
  editRecurring,
  findRecurring,
  putRecurringBack,
  type RecurringFields,
  type RecurringRow,
  removeRecurring,
} from "./store.ts";

export async function startRecurring(
  tx: FirmTransaction,
  fields: NewRecurringInspection,
  personId: string,
): Promise<RecurringRow> {
  return readRecurring(tx, await addRecurring(tx, await rowOf(tx, fields, personId)));
}

/** Undoes a removal; asked a second time, it changes nothing. */
export async function restoreRecurring(
  tx: FirmTransaction,
  { id, ...fields }: NewRecurringInspection & { id: string },
  personId: string,
): Promise<void> {
  await putRecurringBack(tx, { id, ...(await rowOf(tx, fields, personId)) });
}

/** Takes back what was entered by a slip: one that has opened jobs is their history. */
export async function takeRecurringBack(tx: FirmTransaction, id: string): Promise<RecurringRow> {
  const row = await readRecurring(tx, id);
  if (await removeRecurring(tx, id)) return row;
  throw new Problem(
    "conflict",
    `${row.title} at ${row.site.reference} has opened jobs, and stays for their sake. ` +
      "Pause it instead: no more are opened.",
  );
}

async function rowOf(
  tx: FirmTransaction,
  fields: NewRecurringInspection,
  createdById: string,
): Promise<RecurringFields> {
  const site = await findSite(tx, fields.siteId);
  if (!site) throw invalid("/body/siteId", "There is no such site in your firm.");
  if (site.archivedAt) {
    throw invalid("/body/siteId", `Site ${site.reference} is archived: bring the site back first.`);
  }
  await requirePlan(tx, fields.planId);
  const firstDueOn = new Date(fields.firstDueOn);
  return { ...fields, firstDueOn, nextDueOn: firstDueOn, createdById };
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
