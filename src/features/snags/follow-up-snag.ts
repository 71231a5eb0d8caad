// A snag that needs another visit gets one: on its own job while that is open, else on a job of its
// own at the same site.
import type { FirmTransaction } from "../../db/scope.ts";
import { type FieldError, invalid, Problem } from "../../errors.ts";
import { openJob } from "../jobs/open-job.ts";
import { appendToLedger } from "../ledger/store.ts";
import { bookVisit, type Wanted } from "../visits/book-visit.ts";
import { readSnag, type SnagRow } from "./keep-snag.ts";
import type { NewFollowUp } from "./schemas.ts";
import { followUp } from "./store.ts";

export async function followUpSnag(
  tx: FirmTransaction,
  id: string,
  wish: NewFollowUp,
  personId: string,
  now: Date,
  wanted: Wanted,
): Promise<SnagRow> {
  const snag = await readSnag(tx, id);
  if (snag.state === "mended") throw mendedAlready();
  const ownJobId = wish.job ? await openFollowUp(tx, snag, wish.job, personId, now) : undefined;
  const followUpJobId = ownJobId ?? snag.followUpJobId ?? undefined;
  if (followUpJobId === undefined && snag.job.state !== "open") {
    throw invalid(
      "/body/job",
      `${snag.job.reference} is ${snag.job.state}: say with job which work is opened for the snag.`,
    );
  }
  const visitId = wish.visit
    ? await bookFor(tx, followUpJobId ?? snag.jobId, wish.visit, wanted)
    : undefined;
  const by = {
    ...(ownJobId === undefined ? {} : { followUpJobId: ownJobId }),
    ...(visitId === undefined ? {} : { followUpVisitId: visitId }),
  };
  if (!(await followUp(tx, id, by))) throw mendedAlready();
  const body = { followUpJobId: ownJobId ?? null, personId, snagId: id, visitId: visitId ?? null };
  await appendToLedger(tx, snag.jobId, { kind: "snag.followed-up", body, at: now });
  return readSnag(tx, id);
}

async function openFollowUp(
  tx: FirmTransaction,
  snag: SnagRow,
  { kind, planId, title, unitIds }: NonNullable<NewFollowUp["job"]>,
  personId: string,
  now: Date,
): Promise<string> {
  if (snag.followUpJob?.state === "open") {
    throw new Problem(
      "conflict",
      `${snag.followUpJob.reference} is open for this snag already. Book a visit on it.`,
    );
  }
  const units = unitIds.map((unitId) => ({ unitId }));
  const fields = { siteId: snag.job.siteId, kind, planId, title: title ?? snag.title, units };
  return underneath("/body/job", () => openJob(tx, fields, personId, now));
}

const bookFor = (
  tx: FirmTransaction,
  jobId: string,
  visit: NonNullable<NewFollowUp["visit"]>,
  wanted: Wanted,
): Promise<string> =>
  underneath("/body/visit", async () => (await bookVisit(tx, jobId, visit, wanted)).id);

/** Runs what names fields as a request of its own would; here they lie one level deeper. */
async function underneath<Result>(place: string, work: () => Promise<Result>): Promise<Result> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const errors = error.extras.errors as FieldError[] | undefined;
    if (!errors) throw error;
    const placed = errors.map(({ pointer, detail }) => ({
      pointer: pointer.replace(/^\/body/, place),
      detail,
    }));
    throw new Problem(error.code, error.message, { ...error.extras, errors: placed });
  }
}

const mendedAlready = (): Problem =>
  new Problem("conflict", "The snag is mended. Raise a new one for what is left.");
