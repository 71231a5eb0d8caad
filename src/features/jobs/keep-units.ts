import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { appendToLedger } from "../ledger/store.ts";
import { findPlanVersion } from "../plans/store.ts";
import { storedPlan } from "../plans/stored-plan.ts";
import { receiveUnit, serialByRule } from "../units/receive-unit.ts";
import { findUnitBySerial } from "../units/store.ts";
import { fitUnits } from "./fit-units.ts";
import { JOB_UNITS_MOST, type NewSerial } from "./schemas.ts";
import { type JobRow, jobUnits, moveVersion } from "./store.ts";
import { takeOpenJob } from "./take-job.ts";
import { appendUnits, closeGap, hasAnswersFor, removeUnit } from "./units-store.ts";

export type JobUnitRow = Awaited<ReturnType<typeof jobUnits>>[number];

interface Act {
  personId: string;
  now: Date;
}

export async function addUnitToJob(
  tx: FirmTransaction,
  jobId: string,
  unitId: string,
  act: Act,
): Promise<JobUnitRow> {
  const job = await takeOpenJob(tx, jobId);
  const units = await jobUnits(tx, jobId);
  if (units.some((row) => row.unitId === unitId)) {
    throw new Problem("conflict", `The unit is on ${job.reference} already.`, { unitId });
  }
  return append(tx, job, units, unitId, "/body/unitId", act);
}

/** What was read off a label: the unit is received if nobody did so, and put on the job. */
export async function captureSerial(
  tx: FirmTransaction,
  jobId: string,
  fields: NewSerial,
  act: Act,
): Promise<{ row: JobUnitRow; isReceived: boolean; isNew: boolean }> {
  const job = await takeOpenJob(tx, jobId);
  const units = await jobUnits(tx, jobId);
  const { modelId } = fields;
  const pointers = { modelId: "/body/modelId", serial: "/body/serial" };
  const serial = await serialByRule(tx, fields, pointers);
  const known = await findUnitBySerial(tx, modelId, serial);
  const onJob = known && units.find((row) => row.unitId === known.id);
  if (onJob) return { row: onJob, isReceived: false, isNew: false };
  const unitId =
    known?.id ??
    (await receiveUnit(tx, { ...fields, personId: act.personId, at: act.now })).unit.id;
  const row = await append(tx, job, units, unitId, "/body/modelId", act);
  return { row, isReceived: known === undefined, isNew: true };
}

async function append(
  tx: FirmTransaction,
  job: JobRow,
  before: JobUnitRow[],
  unitId: string,
  pointer: string,
  { personId, now }: Act,
): Promise<JobUnitRow> {
  if (before.length >= JOB_UNITS_MOST) {
    const full = `${job.reference} has ${JOB_UNITS_MOST} units, the most a job takes.`;
    throw new Problem("conflict", `${full} Open another job.`);
  }
  const version = await findPlanVersion(tx, job.planVersionId);
  const plan = storedPlan(version?.document);
  await fitUnits(tx, [unitId], { siteId: job.siteId, plan }, () => pointer);
  await appendUnits(tx, job.id, [unitId]);
  await moveVersion(tx, job.id);
  const row = (await jobUnits(tx, job.id)).find((one) => one.unitId === unitId);
  if (!row) throw new Error("a unit just added is not on its job");
  const { modelId, serial } = row.unit;
  const body = { modelId, personId, position: row.position, serial, unitId };
  await appendToLedger(tx, job.id, { kind: "job.unit-added", body, at: now });
  return row;
}

/**
 * Takes a unit off the job. The units behind it move up, unless readings of one of them were taken
 * at the place it has: addresses and torque records follow the place.
 */
export async function takeUnitOffJob(
  tx: FirmTransaction,
  jobId: string,
  unitId: string,
  { personId, now }: Act,
): Promise<void> {
  const job = await takeOpenJob(tx, jobId);
  const units = await jobUnits(tx, jobId);
  const row = units.find((one) => one.unitId === unitId);
  if (!row) throw notFound("unit on this job");
  const { serial } = row.unit;
  if (await hasAnswersFor(tx, jobId, [unitId])) {
    throw new Problem(
      "conflict",
      `${job.reference} has answers for ${serial}, which are kept. Leave the unit on the job.`,
    );
  }
  await removeUnit(tx, jobId, unitId);
  const behind = units.filter(({ position }) => position > row.position);
  const isAnswered = await hasAnswersFor(
    tx,
    jobId,
    behind.map((one) => one.unitId),
  );
  if (!isAnswered) await closeGap(tx, jobId, row.position);
  await moveVersion(tx, jobId);
  const places = (await jobUnits(tx, jobId)).map((one) => ({
    position: one.position,
    unitId: one.unitId,
  }));
  const body = { personId, places, position: row.position, serial, unitId };
  await appendToLedger(tx, jobId, { kind: "job.unit-removed", body, at: now });
}
