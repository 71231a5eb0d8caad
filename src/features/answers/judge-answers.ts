// The judging of answers apart from where they come from: an ordinary request and a tablet's
// operation read the same record under the same lock and store the same rows.
import { createHash } from "node:crypto";
import type { Query } from "../../db/query.ts";
import type { Statement } from "../../db/scope.ts";
import { type AnswerValue, parseAnswerValue } from "../../domain/acceptance/answer.ts";
import { Judge } from "../../domain/acceptance/judge.ts";
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import type { CompiledPlan } from "../../domain/plan/compile.ts";
import type { JobContext } from "../../domain/plan/context.ts";
import { bearingOn } from "../../domain/plan/dependencies.ts";
import { toSi } from "../../domain/quantities/convert.ts";
import { isUnit } from "../../domain/quantities/units.ts";
import { notFound } from "../../errors.ts";
import { levelStatements } from "../firmware/level-store.ts";
import { toAnswers } from "../job-record/context.ts";
import { type JobRecord, readJobRecord } from "../job-record/store.ts";
import type { Origin } from "../ledger/origin.ts";
import { ledgerStatement } from "../ledger/store.ts";
import type { NewAnswer } from "./schemas.ts";
import { type AnswerInsert, insertStatement, type KeptRow, keptStatement } from "./store.ts";

/** What bears on these answers, under the job's lock, and which of them were kept before. */
export async function readForAnswers(
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

export interface Judged {
  insert: AnswerInsert;
  verdict: Verdict;
}

export interface Judging {
  fresh: readonly NewAnswer[];
  bodies: ReadonlyMap<string, string>;
  record: JobRecord;
  plan: CompiledPlan;
  context: JobContext;
  personId: string;
}

/**
 * Each verdict sees the answers before it and its neighbours in the batch, as the gate later will.
 */
export function judgeAll({ fresh, bodies, record, plan, context, personId }: Judging): Judged[] {
  const added = fresh.map((answer, index) => ({
    ...answer,
    personId,
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

/** Who answered, when it came in, and which operation of which tablet brought it. */
export interface Author {
  personId: string;
  at: Date;
  origin?: Origin;
}

/** Answers, firmware levels and ledger entries, in the order in which they are written. */
export function answerStatements(
  firmId: string,
  record: JobRecord,
  plan: CompiledPlan,
  judged: readonly Judged[],
  author: Author,
): Statement[] {
  const { personId, at, origin } = author;
  const firm = { firmId };
  const jobId = record.job.id;
  const inserts = judged.map(({ insert }) => insert);
  return [
    insertStatement(firm, jobId, personId, inserts),
    ...levelStatements(firm, record, plan, inserts, personId, at),
    ...inserts.map((insert) =>
      ledgerStatement(firm, jobId, {
        kind: "answer.taken",
        body: { ...ledgerBody(insert, personId), ...origin },
        at,
      }),
    ),
  ];
}

/** What the record needs to be judged again by a stranger. */
function ledgerBody(insert: AnswerInsert, personId: string): object {
  const { note, numberSi: _numberSi, verdict, ...facts } = insert;
  const { sentence, code } = verdict as Verdict;
  return {
    ...facts,
    code,
    sentence,
    personId,
    ...(note === null ? {} : { note }),
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
export const hashOf = (jobId: string, answer: NewAnswer): string =>
  sha256(`${jobId}\n${canonicalize(answer)}`);
