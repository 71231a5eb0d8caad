// What was found of an instrument is written into the ledger of every job that it casts doubt on,
// in the transaction that records it. Jobs are taken in the order of their ids, so that two of them
// never wait for each other; the verdicts and a closed job stay as they are.
import type { FirmTransaction } from "../../db/scope.ts";
import type { DoubtSpan } from "../../domain/acceptance/instrument-doubt.ts";
import { appendToLedger } from "../ledger/store.ts";
import { doubtedJobs } from "./affected-store.ts";

const JOBS_A_BATCH = 25;

export interface Act {
  personId?: string;
  now: Date;
}

export async function castDoubt(
  tx: FirmTransaction,
  instrumentId: string,
  span: DoubtSpan,
  { personId, now }: Act,
): Promise<void> {
  const { cause, found } = span;
  const who = personId === undefined ? {} : { personId };
  let after: string | undefined;
  for (;;) {
    const jobs = await doubtedJobs(tx, instrumentId, span, { after, most: JOBS_A_BATCH });
    for (const { jobId, answers, answerIds } of jobs) {
      const body = { answerIds, answers, cause, found, instrumentId, ...who };
      await appendToLedger(tx, jobId, { kind: "instrument.doubted", body, at: now });
    }
    after = jobs.at(-1)?.jobId;
    if (jobs.length < JOBS_A_BATCH) return;
  }
}
