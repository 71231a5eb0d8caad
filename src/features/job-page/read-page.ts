import type { FirmTransaction } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { type EvaluatedJob, evaluateJob } from "../close-out/evaluate.ts";
import { lastCloseOut, readJob } from "../close-out/store.ts";
import { listConcessions } from "../concessions/store.ts";
import { listDocuments } from "../documents/store.ts";
import { readFirm } from "../firms/store.ts";
import { doubtsOf } from "../job-record/doubts.ts";
import { listMessages, readStanding } from "../messages/store.ts";
import { tabletNotes } from "../tablet/job-notes.ts";
import { namesOf } from "./names-store.ts";
import { jobSnags, jobVisits, lastPhotos, snagFollowedUpBy } from "./store.ts";

const MESSAGES_SHOWN = 20;
const DOCUMENTS_SHOWN = 50;

/** Everything one page of a job shows, each list bounded. */
export async function readJobPage(tx: FirmTransaction, id: string, personId: string, now: Date) {
  const evaluated = await evaluateJob(tx, id, now, { lock: false });
  const job = evaluated && (await readJob(tx, id));
  if (!evaluated || !job) throw notFound("job");
  const { record } = evaluated;
  const concessions = await listConcessions(tx, id);
  return {
    evaluated,
    job,
    firm: await readFirm(tx),
    closeOut: record.job.state === "closed" ? await lastCloseOut(tx, id) : null,
    tablet: await tabletNotes(tx, id),
    doubts: doubtsOf(record),
    concessions,
    names: await namesOf(tx, peopleOf(evaluated, concessions)),
    photos: await lastPhotos(tx, id),
    snags: await jobSnags(tx, id),
    followsUp: await snagFollowedUpBy(tx, id),
    documents: await listDocuments(tx, id, { most: DOCUMENTS_SHOWN }),
    messages: (await listMessages(tx, id, { last: true, most: MESSAGES_SHOWN })).toReversed(),
    standing: await readStanding(tx, id, personId),
    visits: await jobVisits(tx, id),
  };
}

export type JobPageData = Awaited<ReturnType<typeof readJobPage>>;

function peopleOf(
  { record }: EvaluatedJob,
  concessions: Awaited<ReturnType<typeof listConcessions>>,
): string[] {
  return [
    ...record.answers.map(({ personId }) => personId),
    ...concessions.flatMap(({ grantedById, revokedById }) => [grantedById, revokedById ?? []]),
  ].flat();
}
