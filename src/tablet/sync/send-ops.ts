// Requirement: what was kept reaches the server in the order of its row, each exactly once; lost
// replies, cut connections and repeated batches change nothing of that, because the server knows
// again what it has and the store drops nothing that was not answered.
import type { OpResult, TabletOp } from "../../features/tablet/schemas.ts";
import type { Sending, WaitingRow } from "../store/sending.ts";
import type { Caller } from "./caller.ts";
import { type Halt, haltOf, outdated, stranger, stuck } from "./halt.ts";
import { type BatchReply, readBatchReply } from "./op-results.ts";
import type { Answered } from "./reply.ts";

export const BATCH_OPS = 50;

export interface Round {
  store: Sending;
  caller: Caller;
  /** RFC 3339, by the tablet's clock. */
  at(): string;
}

/** All rows; a row that cannot go on does not hold up the others. */
export async function sendOps(round: Round): Promise<Halt | undefined> {
  const done = new Set<string>();
  let rowHalt: Halt | undefined;
  for (;;) {
    const rows = await round.store.waitingRows();
    const row = rows.find(({ deviceId }) => !done.has(deviceId));
    if (!row) return rowHalt;
    done.add(row.deviceId);
    const halt = await sendRow(round, row);
    if (halt && halt.state !== "outdated") return halt;
    rowHalt ??= halt;
  }
}

interface Place {
  from: number;
  most: number;
  /** Where the server sent us back to; to be sent back so far again is no way forward. */
  sentBackTo?: number;
}

async function sendRow(
  round: Round,
  { deviceId, firstSeq }: WaitingRow,
): Promise<Halt | undefined> {
  let place: Place = { from: firstSeq, most: BATCH_OPS };
  for (;;) {
    const ops = await round.store.opsFrom(deviceId, place.from, place.most);
    if (ops.length === 0) {
      const from = await nextWaiting(round, deviceId, place.from);
      if (from === undefined) return undefined;
      place.from = from;
      continue;
    }
    const next = await sendBatch(round, deviceId, ops, place);
    if (!("from" in next)) return next.halt;
    place = next;
  }
}

/** Behind places that are not here: a file that came back with a hole, or settled long ago. */
async function nextWaiting(
  { store }: Round,
  deviceId: string,
  after: number,
): Promise<number | undefined> {
  const row = (await store.waitingRows()).find((waiting) => waiting.deviceId === deviceId);
  return row && row.firstSeq > after ? row.firstSeq : undefined;
}

type Next = Place | { halt: Halt | undefined };

async function sendBatch(
  round: Round,
  deviceId: string,
  ops: readonly TabletOp[],
  place: Place,
): Promise<Next> {
  const json = { ops, firmId: round.store.firmId };
  const request = { method: "POST", path: "/api/v1/tablet/ops", json } as const;
  const reply = await round.caller.call(request);
  if (reply.kind === "too-large" || isUnreadable(reply)) return smaller(round, ops, place);
  if (reply.kind !== "answered") return { halt: haltOf(reply) };
  const read = readBatchReply(reply.body, ops);
  if (!read) return { halt: stranger() };
  await settle(round, deviceId, read, reply);
  return afterReply(round, deviceId, ops, read, place);
}

/** 400 and 422: something in the batch is not as the service reads it. */
const isUnreadable = (reply: { kind: string; status?: number }): boolean =>
  reply.kind === "refused" && (reply.status === 422 || reply.status === 400);

/** Down to the one that cannot go; what is behind it goes on in a row of its own. */
async function smaller(round: Round, ops: readonly TabletOp[], place: Place): Promise<Next> {
  const [first] = ops;
  if (first && ops.length === 1) {
    await round.store.moveRow(first.deviceId, first.deviceSeq + 1);
    return { halt: outdated() };
  }
  return { ...place, most: Math.ceil(ops.length / 2) };
}

const settle = (
  { store, at }: Round,
  deviceId: string,
  { results }: BatchReply,
  { serverAt }: Answered,
): Promise<void> => store.settle(deviceId, results, { at: at(), serverAt });

async function afterReply(
  round: Round,
  deviceId: string,
  ops: readonly TabletOp[],
  { results, storedThrough, hasUnknown }: BatchReply,
  place: Place,
): Promise<Next> {
  const lastSeq = lastSettled(ops, results);
  if (results.some(({ code }) => code === "op-reused") && lastSeq !== undefined) {
    // Another copy of this store has used these places: ours go on in a row of our own.
    await round.store.moveRow(deviceId, lastSeq + 1);
    return { halt: undefined };
  }
  if (hasUnknown) return { halt: outdated() };
  if (results.some(({ outcome }) => outcome === "early")) {
    return sentBack(round, deviceId, storedThrough + 1, place);
  }
  if (lastSeq === undefined) return { halt: stuck() };
  return { from: lastSeq + 1, most: place.most };
}

/** Of those that have an answer without a gap from the first on. */
function lastSettled(ops: readonly TabletOp[], results: readonly OpResult[]): number | undefined {
  const outcomes = new Map(results.map(({ opId, outcome }) => [opId, outcome]));
  const isSettled = ({ opId }: TabletOp): boolean => (outcomes.get(opId) ?? "early") !== "early";
  const gap = ops.findIndex((op) => !isSettled(op));
  return ops[(gap === -1 ? ops.length : gap) - 1]?.deviceSeq;
}

/** The server lacks one before: also one that it had once, if it was put back from a backup. */
async function sentBack(
  { store }: Round,
  deviceId: string,
  wanted: number,
  place: Place,
): Promise<Next> {
  if (wanted <= (place.sentBackTo ?? 0)) return { halt: stuck() };
  const [held] = await store.opsFrom(deviceId, wanted, 1);
  if (held) return { from: wanted, most: place.most, sentBackTo: wanted };
  // Nobody has it: waiting for it would keep all behind it here for ever.
  await store.moveRow(deviceId, wanted);
  return { halt: undefined };
}
