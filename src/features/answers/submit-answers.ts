// One request's way: read the job's record under its lock, refuse what cannot be read, judge each
// answer with the rules of src/domain, then answers, ledger entries and commit in one round trip.
// What was kept before under the same id is not kept twice: its stored verdict is the reply.
import type { Database } from "../../db/client.ts";
import { pipelineQuery } from "../../db/query.ts";
import { inFirmPipelined } from "../../db/scope.ts";
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import { notFound } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import { toContext } from "../job-record/context.ts";
import { planOfJob } from "../job-record/plan-store.ts";
import { refuseUnreadable } from "./check-answers.ts";
import { answerStatements, hashOf, judgeAll, readForAnswers } from "./judge-answers.ts";
import { refuseClosed, refuseDoubledIds, refuseReusedIds } from "./refuse-ids.ts";
import type { NewAnswer } from "./schemas.ts";

export interface KeptAnswer {
  id: string;
  itemId: string;
  subject: string;
  repeated: boolean;
  verdict: Verdict;
}

export async function submitAnswers(
  db: Database,
  session: SignedIn,
  jobId: string,
  answers: readonly NewAnswer[],
  now: Date,
): Promise<KeptAnswer[]> {
  refuseDoubledIds(answers);
  const bodies = new Map(answers.map((answer) => [answer.id, hashOf(jobId, answer)]));
  return inFirmPipelined(db, session.firmId, async (pipeline) => {
    const query = pipelineQuery(pipeline);
    const plan = await planOfJob(query, session.firmId, jobId);
    if (!plan) throw notFound("job");
    const { record, keptRows } = await readForAnswers(query, session.firmId, jobId, plan, answers);
    const kept = new Map(keptRows.map((row) => [row.id, row]));
    refuseReusedIds(kept, bodies);
    const fresh = answers.filter((answer) => !kept.has(answer.id));
    const verdicts = new Map(keptRows.map((row) => [row.id, row.verdict as Verdict]));
    if (fresh.length > 0) {
      refuseClosed(record);
      const { firmId, personId } = session;
      const context = toContext(record, now);
      refuseUnreadable(fresh, plan, context);
      const judged = judgeAll({ fresh, bodies, record, plan, context, personId });
      const author = { personId, at: now };
      await pipeline.commit(...answerStatements(firmId, record, plan, judged, author));
      for (const { insert, verdict } of judged) verdicts.set(insert.id, verdict);
    }
    return answers.map(({ id, itemId, subject }) => ({
      id,
      itemId,
      subject,
      repeated: kept.has(id),
      verdict: verdicts.get(id) as Verdict,
    }));
  });
}
