import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { type JobRow, lockJob } from "./store.ts";

/** The job, locked, for a change that only an open job takes. */
export async function takeOpenJob(tx: FirmTransaction, id: string): Promise<JobRow> {
  const job = await lockJob(tx, id);
  if (!job) throw notFound("job");
  if (job.state === "open") return job;
  const wayOut =
    job.state === "closed" ? " A manager can reopen it with a reason." : " Open a new job instead.";
  throw new Problem("job-not-open", `${job.reference} is ${job.state}.${wayOut}`);
}
