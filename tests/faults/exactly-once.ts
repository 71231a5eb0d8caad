// What must hold of a job however its tablets were cut off: each operation is on the server exactly
// once, with its effect exactly once, in its tablet's order, and the ledger's chain is whole.
import type pg from "pg";
import { expect } from "vitest";
import { verifyChain } from "../../src/domain/evidence/ledger-chain.ts";
import type { OpPayload, TabletOp } from "../../src/features/tablet/schemas.ts";

export interface KeptByTablet {
  deviceId: string;
  kept: readonly TabletOp[];
  /** Whether the office must decide of it first; nothing else may be held. */
  isHeld?: (op: TabletOp) => boolean;
}

const isOfNoItem = ({ payload }: TabletOp): boolean =>
  payload.kind === "answer" && payload.answer.itemId === "nothing";

interface OpRow {
  op_id: string;
  device_id: string;
  device_seq: number;
  body: string;
  outcome: string;
  chain_broken: boolean;
  differs: boolean;
}

interface AnswerRow {
  id: string;
  item_id: string;
  subject: string;
  value: unknown;
  receipt_order: number;
}

interface LedgerRow {
  seq: number;
  text: string;
  sha256: string;
}

/** @param client sees every firm, to look behind the service */
export async function expectExactlyOnce(
  client: pg.Client,
  jobId: string,
  tablets: readonly KeptByTablet[],
  replay: string,
): Promise<void> {
  const rows = async <Row>(sql: string): Promise<Row[]> =>
    (await client.query(sql, [jobId])).rows as Row[];
  const ops = await rows<OpRow>(
    "SELECT * FROM tablet_op WHERE job_id = $1 ORDER BY device_id, device_seq",
  );
  const answers = await rows<AnswerRow>(
    "SELECT * FROM answer WHERE job_id = $1 ORDER BY receipt_order",
  );
  const ledger = await rows<LedgerRow>(
    "SELECT seq, text, sha256 FROM ledger_entry WHERE job_id = $1 ORDER BY seq",
  );
  for (const tablet of tablets) expectRow(tablet, ops, answers, replay);
  const kept = tablets.flatMap((tablet) => tablet.kept);
  expect(ops, replay).toHaveLength(kept.length);
  expect(
    ops.filter((row) => row.chain_broken),
    replay,
  ).toEqual([]);
  const sent = new Map(kept.map((op) => [op.opId, op]));
  expectLedger(ledger, ops, sent, replay);
  expectDifferences(ops, answers, sent, replay);
}

function expectRow(
  { deviceId, kept, isHeld = isOfNoItem }: KeptByTablet,
  ops: readonly OpRow[],
  answers: readonly AnswerRow[],
  replay: string,
): void {
  const own = ops.filter((row) => row.device_id === deviceId);
  expect(
    own.map(({ body }) => JSON.parse(body)),
    replay,
  ).toEqual(kept);
  const held = own.filter(({ outcome }) => outcome === "held").map((row) => row.op_id);
  expect(held, replay).toEqual(kept.filter(isHeld).map(({ opId }) => opId));
  expectOrder(
    kept.filter((op) => !isHeld(op)),
    answers,
    replay,
  );
}

/** Its chain is whole, and it tells of each operation that took effect once. */
function expectLedger(
  ledger: readonly LedgerRow[],
  ops: readonly OpRow[],
  sent: ReadonlyMap<string, TabletOp>,
  replay: string,
): void {
  expect(verifyChain(ledger), replay).toMatchObject({ ok: true, length: ledger.length });
  // Photos and what follows of a close-out have entries that name no operation.
  const named = ledger
    .map(({ text }) => (JSON.parse(text) as { body: { opId?: string } }).body.opId)
    .filter((opId) => opId !== undefined);
  const told = ops.filter((row) => isTold(row, sent.get(row.op_id)?.payload));
  expect(named.sort(), replay).toEqual(told.map((row) => row.op_id).sort());
}

const isTold = (row: OpRow, payload: OpPayload | undefined): boolean =>
  row.outcome === "stored" && payload?.kind !== "stage-time";

/** One answer for each operation that holds one, in the tablet's order, as it was typed. */
function expectOrder(kept: readonly TabletOp[], answers: readonly AnswerRow[], replay: string) {
  const sent = kept.flatMap(({ opId, payload }) =>
    payload.kind === "answer"
      ? [{ id: opId, item: payload.answer.itemId, value: payload.answer.value }]
      : [],
  );
  const ids = new Set(kept.map(({ opId }) => opId));
  const own = answers.filter(({ id }) => ids.has(id));
  expect(
    own.map(({ id, item_id: item, value }) => ({ id, item, value })),
    replay,
  ).toEqual(sent);
}

/** Flagged are those, and only those, that did not know of another tablet's answer to the same. */
function expectDifferences(
  ops: readonly OpRow[],
  answers: readonly AnswerRow[],
  sent: ReadonlyMap<string, TabletOp>,
  replay: string,
): void {
  const deviceOf = new Map(ops.map((row) => [row.op_id, row.device_id]));
  const expected = answers.filter((answer) =>
    answers.some(
      (other) =>
        other.item_id === answer.item_id &&
        other.subject === answer.subject &&
        other.receipt_order < answer.receipt_order &&
        other.receipt_order > (sent.get(answer.id)?.orderSeen ?? 0) &&
        deviceOf.get(other.id) !== deviceOf.get(answer.id),
    ),
  );
  const flagged = ops.filter((row) => row.differs).map((row) => row.op_id);
  expect(flagged.sort(), replay).toEqual(expected.map(({ id }) => id).sort());
}
