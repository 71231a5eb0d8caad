// One operation: its row, its effect and the device's place in one commit. What the rules or the
// database refuse is undone and then stored as held with the reason, so that nothing is lost; only
// what may come out otherwise in a moment (a busy database) goes back to the tablet unkept.
import type { Database } from "../../db/client.ts";
import { pipelineQuery, transactionQuery } from "../../db/query.ts";
import { inFirm, inFirmPipelined, type Statement } from "../../db/scope.ts";
import { PROBLEMS, Problem } from "../../errors.ts";
import { databaseProblem } from "../../web/database-problem.ts";
import type { Author } from "../answers/judge-answers.ts";
import { planOfJob } from "../job-record/plan-store.ts";
import { act } from "./ops-acts.ts";
import { readFact } from "./ops-facts.ts";
import type { IncomingOp, PlacedText } from "./ops-incoming.ts";
import { requirePerson } from "./ops-person.ts";
import {
  advanceStatement,
  type OpPlace,
  opStatement,
  readPlace,
  type StoredReply,
} from "./ops-store.ts";
import {
  refusal,
  type Standing,
  standingOf,
  type Taken,
  whenTextFaulty,
  whenUnkept,
} from "./ops-unkept.ts";

export interface Receiver {
  db: Database;
  firmId: string;
  /** Who is signed in and sends. */
  personId: string;
  now(): Date;
  /** A fault of ours, which the office is told of in general words. */
  onFault(error: unknown, opId: string): void;
}

export async function takeOp(receiver: Receiver, incoming: IncomingOp): Promise<Taken> {
  if (incoming.textFault) return refuseText(receiver, incoming, incoming.textFault);
  const { kind } = incoming.op.payload;
  const isFact = kind === "answer" || kind === "stage-time";
  try {
    return await (isFact ? takeFact(receiver, incoming) : takeAct(receiver, incoming));
  } catch (error) {
    return holdOp(receiver, incoming, toRefusal(receiver, incoming, error));
  }
}

/** An answer or a stage's time: two round trips, three where the job's plan is not known yet. */
function takeFact(receiver: Receiver, incoming: IncomingOp): Promise<Taken> {
  const { db, firmId } = receiver;
  const { op } = incoming;
  return inFirmPipelined(db, firmId, async (pipeline) => {
    const query = pipelineQuery(pipeline);
    const at = receiver.now();
    const plan = await planOfJob(query, firmId, op.jobId);
    const [place, fact] = await Promise.all([
      readPlace(query, firmId, incoming, { personId: receiver.personId, at }),
      readFact(query, firmId, plan, op),
    ]);
    const standing = standingOf(place, incoming);
    if (standing !== "next") {
      const unkept = whenUnkept(receiver, incoming, place, standing, at);
      if (unkept.statements.length > 0) await pipeline.commit(...unkept.statements);
      return unkept.taken;
    }
    requirePerson(place.person, op.payload.kind);
    const { statements, reply } = fact(authorOf(receiver, incoming, at));
    const row = rowStatements(receiver, incoming, place, stored(incoming, reply), at);
    await pipeline.commit(row.keep, ...statements, row.advance);
    return row.taken;
  });
}

/** A snag or a close-out, whose rules work in a transaction step by step. */
function takeAct(receiver: Receiver, incoming: IncomingOp): Promise<Taken> {
  const { db, firmId } = receiver;
  return inFirm(db, firmId, async (tx) => {
    const query = transactionQuery(tx);
    const at = receiver.now();
    const place = await readPlace(query, firmId, incoming, { personId: receiver.personId, at });
    const standing = standingOf(place, incoming);
    if (standing !== "next") {
      const unkept = whenUnkept(receiver, incoming, place, standing, at);
      await query(...unkept.statements);
      return unkept.taken;
    }
    requirePerson(place.person, incoming.op.payload.kind);
    const reply = await act(tx, incoming.op, authorOf(receiver, incoming, at));
    const row = rowStatements(receiver, incoming, place, stored(incoming, reply), at);
    await query(row.keep, row.advance);
    return row.taken;
  });
}

function holdOp(receiver: Receiver, incoming: IncomingOp, problem: Problem): Promise<Taken> {
  return withoutEffect(receiver, incoming, (place, at) => {
    const reply = refusal(incoming.op, "held", problem);
    const { keep, advance, taken } = rowStatements(receiver, incoming, place, reply, at);
    return { taken, statements: [keep, advance] };
  });
}

/** Not held: no decision of the office would make its text one that can be kept. */
const refuseText = (receiver: Receiver, incoming: IncomingOp, fault: PlacedText): Promise<Taken> =>
  withoutEffect(receiver, incoming, (place, at) =>
    whenTextFaulty(receiver, incoming, place, fault, at),
  );

function withoutEffect(
  receiver: Receiver,
  incoming: IncomingOp,
  whenNext: (place: OpPlace, at: Date) => { taken: Taken; statements: Statement[] },
): Promise<Taken> {
  const { db, firmId, personId } = receiver;
  return inFirmPipelined(db, firmId, async (pipeline) => {
    const at = receiver.now();
    const place = await readPlace(pipelineQuery(pipeline), firmId, incoming, { personId, at });
    const standing = standingOf(place, incoming);
    const { taken, statements } =
      standing === "next" || isRefusedAgain(place, incoming, standing)
        ? whenNext(place, at)
        : whenUnkept(receiver, incoming, place, standing, at);
    if (statements.length > 0) await pipeline.commit(...statements);
    return taken;
  });
}

/** Its place was used up, and no other operation has its id or its place. */
const isRefusedAgain = (
  { existing }: OpPlace,
  { textFault }: IncomingOp,
  standing: Standing,
): boolean => standing === "reused" && textFault !== undefined && existing.length === 0;

const stored = ({ op }: IncomingOp, reply: Partial<StoredReply>): StoredReply => ({
  opId: op.opId,
  deviceSeq: op.deviceSeq,
  outcome: "stored",
  ...reply,
});

/** @returns what the ledger and the record name as the source */
function authorOf({ personId: sentById }: Receiver, { op }: IncomingOp, at: Date): Author {
  const { opId, deviceId, deviceSeq, personId } = op;
  return { personId, at, origin: { opId, deviceId, deviceSeq, sentById } };
}

function rowStatements(
  { firmId, personId: sentById }: Receiver,
  incoming: IncomingOp,
  place: OpPlace,
  reply: StoredReply,
  at: Date,
): { keep: Statement; advance: Statement; taken: Taken } {
  const { op } = incoming;
  const row = {
    jobId: place.jobId,
    personId: place.person?.id ?? null,
    sentById,
    reply,
    chainBroken: op.prevHash !== place.lastHash,
    receivedAt: at,
  };
  return {
    keep: opStatement(firmId, incoming, row),
    advance: advanceStatement(firmId, incoming, at),
    taken: { result: { ...reply, repeated: false }, storedThrough: op.deviceSeq },
  };
}

/** What an error means for the operation; thrown again where sending once more is the way out. */
function toRefusal(receiver: Receiver, { op }: IncomingOp, error: unknown): Problem {
  const problem = error instanceof Problem ? error : databaseProblem(error);
  if (problem && PROBLEMS[problem.code].status < 500) return problem;
  if (problem) throw problem;
  receiver.onFault(error, op.opId);
  return new Problem(
    "internal",
    "It could not be judged because of a fault of the service, which is in its log. " +
      "Apply it again when that is mended.",
  );
}
