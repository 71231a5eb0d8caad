// What an answer or a stage's time does, worked out before anything is written: the statements that
// go with the operation's own row in one commit.
import type { Query } from "../../db/query.ts";
import type { Statement } from "../../db/scope.ts";
import type { CompiledPlan } from "../../domain/plan/compile.ts";
import { notFound, Problem } from "../../errors.ts";
import { faultsInAnswer } from "../answers/check-answers.ts";
import {
  type Author,
  answerStatements,
  hashOf,
  judgeAll,
  readForAnswers,
} from "../answers/judge-answers.ts";
import { refuseClosed } from "../answers/refuse-ids.ts";
import type { NewAnswer } from "../answers/schemas.ts";
import { toContext } from "../job-record/context.ts";
import { type StageTime, stageTimeStatement, unseenStatement } from "./ops-facts-store.ts";
import type { OpResult, TabletOp } from "./schemas.ts";

export interface Effect {
  statements: Statement[];
  reply: Pick<OpResult, "verdict" | "receiptOrder" | "differs">;
}

/** What waits to be judged once it is known that the operation is the device's next. */
export type Fact = (author: Author) => Effect;

/** Sends what must be read, under the job's lock; a refusal is thrown as a Problem. */
export function readFact(
  query: Query,
  firmId: string,
  plan: CompiledPlan | undefined,
  op: TabletOp,
): Promise<Fact> {
  if (!plan) return Promise.reject(notFound("job"));
  const { payload } = op;
  if (payload.kind === "answer") return readAnswer(query, firmId, plan, op, payload.answer);
  if (payload.kind === "stage-time") {
    return Promise.resolve(() => stageTime(firmId, plan, op, payload));
  }
  return Promise.reject(new Error(`${payload.kind} is done in a transaction of its own`));
}

async function readAnswer(
  query: Query,
  firmId: string,
  plan: CompiledPlan,
  op: TabletOp,
  fields: Omit<NewAnswer, "id" | "photos">,
): Promise<Fact> {
  const answer: NewAnswer = { ...fields, id: op.opId, photos: op.photoSha256 };
  const [{ record, keptRows }, [unseen]] = await Promise.all([
    readForAnswers(query, firmId, op.jobId, plan, [answer]),
    query(unseenStatement(firmId, op, fields)),
  ]);
  return (author) => {
    if (keptRows.length > 0) {
      throw new Problem("id-reused", "Another answer was kept under the id of this one.");
    }
    refuseClosed(record);
    const context = toContext(record, author.at);
    refuseFaults(answer, plan, context);
    const bodies = new Map([[answer.id, hashOf(op.jobId, answer)]]);
    const { personId } = author;
    const judged = judgeAll({ fresh: [answer], bodies, record, plan, context, personId });
    const [one] = judged;
    if (!one) throw new Error("one answer has one verdict");
    return {
      statements: answerStatements(firmId, record, plan, judged, author),
      reply: {
        verdict: one.verdict as unknown as NonNullable<OpResult["verdict"]>,
        receiptOrder: one.insert.receiptOrder,
        differs: (unseen?.length ?? 0) > 0,
      },
    };
  };
}

function refuseFaults(
  answer: NewAnswer,
  plan: CompiledPlan,
  context: ReturnType<typeof toContext>,
): void {
  const faults = faultsInAnswer(answer, plan, context);
  if (faults.length === 0) return;
  const details = faults.map(({ pointer, detail }) =>
    pointer === "/takenAt" ? `The time it was taken ${detail}.` : detail,
  );
  throw new Problem("invalid-input", details.join(" "));
}

function stageTime(firmId: string, plan: CompiledPlan, op: TabletOp, time: StageTime): Effect {
  if (!plan.plan.stages.some(({ id }) => id === time.stageId)) {
    throw new Problem("invalid-input", `The plan of this job has no stage "${time.stageId}".`);
  }
  if (Date.parse(time.startedAt) > Date.parse(time.endedAt)) {
    throw new Problem("invalid-input", "The stage ends before it begins: the clock was changed.");
  }
  return { statements: [stageTimeStatement(firmId, op, time)], reply: {} };
}
