// The office decides on what is held: try again, because what stood in the way is gone, or put it
// aside with a reason. Once, and both stay on the record.
import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import type { Author } from "../answers/judge-answers.ts";
import { planOfJob } from "../job-record/plan-store.ts";
import { appendToLedger } from "../ledger/store.ts";
import { findPerson, keepDecision, takeHeld } from "./held-store.ts";
import { act } from "./ops-acts.ts";
import { readFact } from "./ops-facts.ts";
import { textFaultIn } from "./ops-incoming.ts";
import { requirePerson } from "./ops-person.ts";
import type { StoredReply } from "./ops-store.ts";
import { TabletOp } from "./schemas.ts";

export type HeldRow = NonNullable<Awaited<ReturnType<typeof takeHeld>>>;

/** A refusal is thrown as a Problem; the operation stays held. */
export async function applyHeld(
  tx: FirmTransaction,
  opId: string,
  decidedById: string,
  now: Date,
): Promise<HeldRow> {
  const row = await requireUndecided(tx, opId);
  const op = readBody(row);
  refuseFaultyText(op);
  requirePerson(await findPerson(tx, op.personId), op.payload.kind);
  const { deviceId, deviceSeq, personId } = op;
  const origin = { opId, deviceId, deviceSeq, sentById: row.sentById, appliedById: decidedById };
  const decisionReply = await perform(tx, op, { personId, at: now, origin });
  const decision = { decision: "applied", decidedById, decidedAt: now, decisionReply } as const;
  return keepDecision(tx, opId, decision);
}

/** Held before texts were looked at. */
function refuseFaultyText(op: TabletOp): void {
  const faulty = textFaultIn(op);
  if (!faulty) return;
  const { place, fault } = faulty;
  throw new Problem("invalid-input", `Its text at ${place} ${fault}. Put it aside.`);
}

export async function dismissHeld(
  tx: FirmTransaction,
  opId: string,
  decidedById: string,
  decisionReason: string,
  now: Date,
): Promise<HeldRow> {
  const { jobId } = await requireUndecided(tx, opId);
  const decidedAt = now;
  const decision = { decision: "dismissed", decidedById, decidedAt, decisionReason } as const;
  const body = { opId, personId: decidedById, reason: decisionReason };
  if (jobId) await appendToLedger(tx, jobId, { kind: "operation.dismissed", body, at: now });
  return keepDecision(tx, opId, decision);
}

async function perform(
  tx: FirmTransaction,
  op: TabletOp,
  author: Author,
): Promise<Partial<StoredReply>> {
  const { kind } = op.payload;
  if (kind !== "answer" && kind !== "stage-time") return act(tx, op, author);
  const query = transactionQuery(tx);
  const plan = await planOfJob(query, tx.firmId, op.jobId);
  const fact = await readFact(query, tx.firmId, plan, op);
  const { statements, reply } = fact(author);
  await query(...statements);
  return reply;
}

async function requireUndecided(tx: FirmTransaction, opId: string): Promise<HeldRow> {
  const row = await takeHeld(tx, opId);
  if (!row) throw notFound("held operation");
  if (row.decidedAt === null) return row;
  const day = row.decidedAt.toISOString().slice(0, 10);
  throw new Problem("conflict", `${row.decidedBy?.name} ${row.decision} it on ${day}.`);
}

export const readBody = ({ body }: { body: string }): TabletOp => TabletOp.parse(JSON.parse(body));
