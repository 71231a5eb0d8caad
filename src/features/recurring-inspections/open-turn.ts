// A turn's job is opened once, when its horizon is reached and the job of the turn before is not
// open any more. Turns that were missed meanwhile are not made up: one job stands for all of them.
import type { FirmTransaction } from "../../db/scope.ts";
import { addPeriod } from "../../domain/dates/period.ts";
import { type Turn, turnDay } from "../../domain/scheduling/recurrence.ts";
import { openJob } from "../jobs/open-job.ts";
import { JOB_UNITS_MOST } from "../jobs/schemas.ts";
import { appendToLedger } from "../ledger/store.ts";
import type { RecurringRow } from "./store.ts";
import { addTurn, installedUnitIds, takeRecurring } from "./turn-store.ts";

/** Opens the job of the turn that is due; undefined when there is none to open by now. */
export async function openDueTurn(
  tx: FirmTransaction,
  id: string,
  today: string,
  now: Date,
): Promise<{ jobId: string; dueOn: string } | undefined> {
  const row = await takeRecurring(tx, id);
  if (!row || row.endedAt || row.site.archivedAt) return undefined;
  if (row.jobs.some(({ job }) => job.state === "open")) return undefined;
  const turn = lastDue(row, today);
  if (!turn) return undefined;
  const jobId = await openTurnJob(tx, row, now);
  const body = { recurringId: id, number: turn.number, dueOn: turn.dueOn };
  await appendToLedger(tx, jobId, { kind: "job.came-round", body, at: now });
  await addTurn(tx, { ...body, jobId }, turnOf(row, turn.number + 1));
  return { jobId, dueOn: turn.dueOn };
}

/** Of the turns that are to be opened by now, the last one. */
function lastDue(row: RecurringRow, today: string): Turn | undefined {
  const until = addPeriod(today, { days: row.horizonDays });
  let found: Turn | undefined;
  for (let number = row.nextNumber; ; number += 1) {
    const turn = turnOf(row, number);
    if (turn.dueOn > until) return found;
    found = turn;
  }
}

export function turnOf(row: RecurringRow, number: number): Turn {
  const firstDueOn = row.firstDueOn.toISOString().slice(0, 10);
  const { everyMonths } = row;
  return { number, dueOn: turnDay({ firstDueOn, everyMonths }, number - row.firstNumber) };
}

async function openTurnJob(tx: FirmTransaction, row: RecurringRow, now: Date): Promise<string> {
  const { planId, title } = row;
  const siteId = row.site.id;
  const units = (await installedUnitIds(tx, siteId, JOB_UNITS_MOST)).map((unitId) => ({ unitId }));
  const fields = { siteId, kind: "inspection" as const, title, planId, units };
  return openJob(tx, fields, row.createdById, now);
}
