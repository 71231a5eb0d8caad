import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { type Kit, kitFor } from "../../domain/kit/kit-for.ts";
import { parseSurvey } from "../../domain/siting/survey.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { compiledPlan } from "../job-record/plan-store.ts";
import { findJob, type JobRow } from "../jobs/store.ts";
import { takeOpenJob } from "../jobs/take-job.ts";
import { currentSurvey } from "../surveys/store.ts";
import { addTick, findTick, listTicks, readKitUnits, type TickRow, undoTick } from "./store.ts";

/** The pick list of a job, from its plan, its units' models and its site's last survey. */
export async function readKit(
  tx: FirmTransaction,
  { id, siteId, planVersionId }: Pick<JobRow, "id" | "siteId" | "planVersionId">,
): Promise<Kit> {
  const { plan } = await compiledPlan(transactionQuery(tx), tx.firmId, planVersionId);
  const { models, units } = await readKitUnits(tx, id);
  const survey = await currentSurvey(tx, siteId);
  const parsed = survey ? parseSurvey(survey.document) : undefined;
  return kitFor(plan, models, units, parsed?.ok ? parsed.survey : undefined);
}

export async function readJobKit(
  tx: FirmTransaction,
  jobId: string,
): Promise<{ job: JobRow; kit: Kit; ticks: TickRow[] }> {
  const job = await findJob(tx, jobId);
  if (!job) throw notFound("job");
  return { job, kit: await readKit(tx, job), ticks: await listTicks(tx, jobId) };
}

export async function tickLine(
  tx: FirmTransaction,
  jobId: string,
  lineKey: string,
  personId: string,
  now: Date,
): Promise<{ row: TickRow; isNew: boolean }> {
  const job = await takeOpenJob(tx, jobId);
  const { items } = await readKit(tx, job);
  if (!items.some(({ key }) => key === lineKey)) {
    throw invalid("/body/lineKey", `The kit of ${job.reference} has no such line. Read it again.`);
  }
  return addTick(tx, { jobId, lineKey, personId }, now);
}

/** Anybody who packs may take anybody's tick back: the row says who did. */
export async function takeTickBack(
  tx: FirmTransaction,
  jobId: string,
  tickId: string,
  personId: string,
  now: Date,
): Promise<TickRow> {
  await takeOpenJob(tx, jobId);
  const row = await findTick(tx, jobId, tickId);
  if (!row) throw notFound("tick");
  if (await undoTick(tx, tickId, personId, now)) return row;
  throw new Problem("conflict", "The tick was taken back already.");
}
