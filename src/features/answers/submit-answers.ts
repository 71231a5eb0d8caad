// One request's way: read the job's record under its lock, refuse what cannot be read, judge each
// answer with the rules of src/domain, then answers, ledger entries and commit in one round trip.
// What was kept before under the same id is not kept twice: its stored verdict is the reply.
import { createHash } from "node:crypto";
import type { Database } from "../../db/client.ts";
import { pipelineQuery, type Query } from "../../db/query.ts";
import { type FirmPipeline, inFirmPipelined } from "../../db/scope.ts";
import { type AnswerValue, parseAnswerValue } from "../../domain/acceptance/answer.ts";
import { Judge } from "../../domain/acceptance/judge.ts";
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import type { CompiledPlan } from "../../domain/plan/compile.ts";
import { bearingOn } from "../../domain/plan/dependencies.ts";
import { toSi } from "../../domain/quantities/convert.ts";
import { isUnit } from "../../domain/quantities/units.ts";
import { notFound } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import { levelStatements } from "../firmware/level-store.ts";
import { toAnswers, toContext } from "../job-record/context.ts";
import { planOfJob } from "../job-record/plan-store.ts";
import { type JobRecord, readJobRecord } from "../job-record/store.ts";
import { ledgerStatement } from "../ledger/store.ts";
import { refuseUnreadable } from "./check-answers.ts";
import { refuseClosed, refuseDoubledIds, refuseReusedIds } from "./refuse-ids.ts";
import type { NewAnswer } from "./schemas.ts";
import { type AnswerInsert, insertStatement, type KeptRow, keptStatement } from "./store.ts";

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
      const judged = judgeAll({ fresh, bodies, record, plan, session, now });
      await keep(pipeline, record, plan, session.personId, judged, now);
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

/** What bears on these answers, under the job's lock, and which of them were kept before. */
async function readForAnswers(
  query: Query,
  firmId: string,
  jobId: string,
  plan: CompiledPlan,
  answers: readonly NewAnswer[],
): Promise<{ record: JobRecord; keptRows: KeptRow[] }> {
  const itemIds = answers.map((answer) => answer.itemId);
  const ids = answers.map((answer) => answer.id);
  const [record, [keptRows]] = await Promise.all([
    readJobRecord(query, firmId, jobId, {
      lock: true,
      instrumentIds: answers.flatMap((answer) => answer.instrumentId ?? []),
      itemIds: bearingOn(plan.byId, itemIds),
    }),
    query(keptStatement(firmId, ids)) as Promise<[KeptRow[]]>,
  ]);
  if (!record) throw notFound("job");
  return { record, keptRows };
}

interface Judged {
  insert: AnswerInsert;
  verdict: Verdict;
}

interface Judging {
  fresh: readonly NewAnswer[];
  bodies: ReadonlyMap<string, string>;
  record: JobRecord;
  plan: CompiledPlan;
  session: SignedIn;
  now: Date;
}

/**
 * Each verdict sees the answers before it and its neighbours in the batch, as the gate later will.
 */
function judgeAll({ fresh, bodies, record, plan, session, now }: Judging): Judged[] {
  const context = toContext(record, now);
  refuseUnreadable(fresh, plan, context);
  const added = fresh.map((answer, index) => ({
    ...answer,
    personId: session.personId,
    order: record.lastOrder + index + 1,
  }));
  const judge = new Judge(plan, [...toAnswers(record.answers), ...added], context);
  return added.map((answer) => {
    const verdict = judge.verdictOn(answer);
    if (!verdict)
      throw new Error(`no verdict on ${answer.itemId}, which was checked to be in the plan`);
    const insert: AnswerInsert = {
      id: answer.id,
      itemId: answer.itemId,
      subject: answer.subject,
      value: answer.value,
      numberSi: numberSi(plan, answer.itemId, answer.value),
      instrumentId: answer.instrumentId ?? null,
      note: answer.note ?? null,
      photos: answer.photos ?? [],
      takenAt: answer.takenAt,
      receiptOrder: answer.order,
      outcome: verdict.outcome,
      clears: verdict.clears,
      verdict,
      bodySha256: bodies.get(answer.id) ?? "",
    };
    return { insert, verdict };
  });
}

async function keep(
  pipeline: FirmPipeline,
  record: JobRecord,
  plan: CompiledPlan,
  personId: string,
  judged: readonly Judged[],
  now: Date,
): Promise<void> {
  const jobId = record.job.id;
  const inserts = judged.map(({ insert }) => insert);
  const ledger = judged.map(({ insert }) =>
    ledgerStatement(pipeline, jobId, {
      kind: "answer.taken",
      body: ledgerBody(insert, personId),
      at: now,
    }),
  );
  const levels = levelStatements(pipeline, record, plan, inserts, personId, now);
  await pipeline.commit(insertStatement(pipeline, jobId, personId, inserts), ...levels, ...ledger);
}

/** What the record needs to be judged again by a stranger; the free note only by its hash. */
function ledgerBody(insert: AnswerInsert, personId: string): object {
  const { note, numberSi: _numberSi, verdict, ...facts } = insert;
  const { sentence, code } = verdict as Verdict;
  return {
    ...facts,
    code,
    sentence,
    personId,
    ...(note === null ? {} : { noteSha256: sha256(note) }),
  };
}

function numberSi(plan: CompiledPlan, itemId: string, raw: unknown): number | null {
  const item = plan.byId.get(itemId)?.item;
  if (!item || !("unit" in item) || !isUnit(item.unit)) return null;
  const read = parseAnswerValue(item, raw);
  if (!read.ok) return null;
  const number = measuredNumber(read.value);
  return number === undefined ? null : toSi(number, item.unit);
}

function measuredNumber(value: AnswerValue): number | undefined {
  if (value.kind === "measure") return value.number;
  return value.kind === "tighten" ? value.setting.number : undefined;
}

const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");
const hashOf = (jobId: string, answer: NewAnswer): string =>
  sha256(`${jobId}\n${canonicalize(answer)}`);
