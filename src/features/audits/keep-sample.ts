import { auditScope } from "../../db/audit-scope.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { LOT_MOST } from "../../domain/sampling/single-plan.ts";
import { invalid, notFound } from "../../errors.ts";
import { type SampleAsked, sampleJobs } from "./sample-jobs.ts";
import {
  addLook,
  addSample,
  countSamples,
  drawnJobs,
  findSample,
  isDrawn,
  type SampleCounts,
} from "./sample-store.ts";

/** More are not drawn from the largest lot. */
const DRAWN_MOST = 2000;

export interface Keeper {
  personId: string;
  now: Date;
}

/** Draws a sample and keeps it as it is drawn now; the same draw by the same person once. */
export async function keepSample(
  tx: FirmTransaction,
  asked: SampleAsked,
  { personId, now }: Keeper,
): Promise<string> {
  const { lot, plan, jobs, tooMany } = await sampleJobs(tx, asked);
  if (tooMany) throw invalid("/body/to", `More than ${LOT_MOST} jobs were closed in that time.`);
  if (!plan || !jobs) throw invalid("/body/to", "No job that stands closed was closed in it.");
  const accessId = auditScope();
  const fields = {
    ...{ periodFrom: new Date(asked.from), periodTo: new Date(asked.to), seed: asked.seed },
    ...{ qualityLimit: asked.limit, lot, letter: plan.letter, accept: plan.accept },
    ...{ keptById: personId, keptAt: now },
    ...(accessId === undefined ? {} : { auditAccessId: accessId }),
  };
  return (await addSample(tx, fields, jobs)).id;
}

/** A sample with its jobs and how far it is. */
export async function readSample(tx: FirmTransaction, id: string) {
  const row = await findSample(tx, id);
  if (!row) throw notFound("audit sample");
  const jobs = await drawnJobs(tx, [id], DRAWN_MOST);
  const counts = (await countSamples(tx, [id])).get(id) ?? NOTHING;
  return { row, jobs, counts };
}
export type ReadSample = Awaited<ReturnType<typeof readSample>>;

export const NOTHING: Omit<SampleCounts, "sampleId"> = { size: 0, looked: 0, found: 0 };

/** A look at a drawn job is added; those before stay. */
export async function keepLook(
  tx: FirmTransaction,
  { sampleId, jobId, remark }: { sampleId: string; jobId: string; remark?: string | undefined },
  { personId, now }: Keeper,
) {
  if (!(await findSample(tx, sampleId))) throw notFound("audit sample");
  if (!(await isDrawn(tx, sampleId, jobId))) throw notFound("job of this sample");
  return addLook(tx, { sampleId, jobId, personId, remark: remark ?? null, at: now });
}
