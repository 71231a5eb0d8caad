import type { FirmTransaction } from "../../db/scope.ts";
import { bodyAsWritten, textsOf } from "../ledger/texts-store.ts";
import { findJob, jobUnits } from "./store.ts";

/** The job with all that one page of it shows. */
export async function readJobDetail(tx: FirmTransaction, id: string) {
  const job = await findJob(tx, id);
  if (!job) return undefined;
  const { firmId } = tx;
  const units = await jobUnits(tx, id);
  const visits = await tx.visit.findMany({
    where: { firmId, jobId: id },
    include: { crew: { select: { id: true, name: true } } },
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
  });
  const openSnagCount = await tx.snag.count({ where: { firmId, jobId: id, state: "open" } });
  const closeOut = job.closeOutId
    ? await tx.closeOut.findUnique({ where: { firmId_id: { firmId, id: job.closeOutId } } })
    : null;
  const cancellation = job.state === "cancelled" ? await readCancellation(tx, id) : null;
  return { job, units, visits, openSnagCount, closeOut, cancellation };
}

export type JobDetail = NonNullable<Awaited<ReturnType<typeof readJobDetail>>>;

/** The ledger alone keeps who cancelled a job, and why. */
async function readCancellation(tx: FirmTransaction, jobId: string) {
  const entry = await tx.ledgerEntry.findFirst({
    where: { firmId: tx.firmId, jobId, kind: "job.cancelled" },
    orderBy: { seq: "desc" },
  });
  if (!entry) return null;
  const body = bodyAsWritten(entry, await textsOf(tx, jobId, [entry.seq]));
  const { personId, reason } = body as { personId: string; reason: string };
  return { cancelledAt: entry.at, cancelledById: personId, reason };
}
