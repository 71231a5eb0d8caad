// The answers of a job as the tablet knows them: those of the packet, then its own that the packet
// does not hold yet. What the server holds back or refused has no effect there, so it has none
// here.
import type { Answer } from "../../domain/acceptance/answer.ts";
import type { KeptOp } from "../contract.ts";

export interface KnownAnswer extends Answer {
  /** The operation it was kept as, where this tablet took it. */
  kept?: KeptOp;
}

/** Answers of the packet and of this tablet, each once. */
export function knownAnswers(
  fromServer: readonly Answer[],
  lastOrder: number,
  ops: readonly KeptOp[],
): KnownAnswer[] {
  const own = new Map(ops.map((kept) => [kept.op.opId, kept]));
  const known: KnownAnswer[] = fromServer.map((answer) => {
    const kept = own.get(answer.id);
    return kept ? { ...answer, kept } : answer;
  });
  const there = new Set(fromServer.map(({ id }) => id));
  let order = lastOrder;
  for (const kept of ops) {
    const answer = answerOf(kept, order + 1);
    if (!answer || there.has(answer.id)) continue;
    order += 1;
    known.push(answer);
  }
  return known;
}

/** An operation as an answer; undefined where it is none, or has no effect. */
function answerOf(kept: KeptOp, order: number): KnownAnswer | undefined {
  const { op, result } = kept;
  const { payload } = op;
  if (payload.kind !== "answer" || !hasEffect(kept)) return undefined;
  return {
    ...payload.answer,
    id: op.opId,
    personId: op.personId,
    photos: op.photoSha256,
    order: result?.receiptOrder ?? order,
    kept,
  };
}

/** Whether the server took it, or is expected to. */
export const hasEffect = ({ state }: KeptOp): boolean => state === "waiting" || state === "stored";

/** Answers of this tablet to one item that the server holds for the office, or refused. */
export const setBack = (
  ops: readonly KeptOp[],
  itemId: string,
  subject: string,
): readonly KeptOp[] =>
  ops.filter(
    (kept) =>
      !hasEffect(kept) &&
      kept.op.payload.kind === "answer" &&
      kept.op.payload.answer.itemId === itemId &&
      kept.op.payload.answer.subject === subject,
  );
