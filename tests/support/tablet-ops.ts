// A tablet as the server sees it: operations in an unbroken row, each naming the one before.
import { uuidv7 } from "uuidv7";
import { expect } from "vitest";
import { NO_OPERATION, operationHash } from "../../src/domain/evidence/operation-chain.ts";
import type { OpResult, TabletOp } from "../../src/features/tablet/schemas.ts";
import type { TestService } from "./app.ts";
import { addPracticeJob, type WireAnswer } from "./practice-job.ts";

export interface TestTablet {
  deviceId: string;
  /** Keeps one more fact. */
  keep(payload: object, more?: Partial<TabletOp>): TabletOp;
  answer(answer: WireAnswer, more?: Partial<TabletOp>): TabletOp;
}

export function testTablet(jobId: string, personId: string, deviceId = uuidv7()): TestTablet {
  let deviceSeq = 0;
  let prevHash = NO_OPERATION;
  const keep = (payload: object, more: Partial<TabletOp> = {}): TabletOp => {
    deviceSeq += 1;
    const op = {
      opId: uuidv7(),
      deviceId,
      deviceSeq,
      prevHash,
      jobId,
      personId,
      jobVersionSeen: 1,
      orderSeen: 0,
      wallClock: "2026-11-25T10:42:00+00:00",
      monotonicMs: deviceSeq * 1000,
      payload,
      photoSha256: [],
      ...more,
    } as TabletOp;
    prevHash = operationHash(op);
    return op;
  };
  const answer = (wire: WireAnswer, more: Partial<TabletOp> = {}): TabletOp => {
    const { id: _id, photos: _photos, ...fields } = wire;
    return keep({ kind: "answer", answer: fields }, more);
  };
  return { deviceId, keep, answer };
}

export const sendOps = (
  service: TestService,
  ops: readonly unknown[],
  person: { token: string } = service.firm.people.installer,
) => service.as(person).post("/api/v1/tablet/ops").send({ ops });

export const outcomes = (reply: { body: { results?: OpResult[] } }): string[] =>
  (reply.body.results ?? []).map(({ outcome, repeated }) => (repeated ? "repeated" : outcome));

/** A job closed by one tablet while another still has a reading for it, which is held. */
export async function heldOnClosedJob(service: TestService) {
  const job = await addPracticeJob(service);
  const person = service.firm.people.installer.id;
  const first = testTablet(job.jobId, person);
  const ops = job.answers().map((answer) => first.answer(answer));
  ops.push(first.keep({ kind: "close-out", seenOpen: true, seenBlockers: 0 }));
  await sendOps(service, ops);
  const wallGap = job.answers().find(({ itemId }) => itemId === "wall_gap");
  const op = testTablet(job.jobId, person).answer(wallGap as WireAnswer);
  const reply = await sendOps(service, [op]);
  expect(reply.body.results[0]).toMatchObject({ outcome: "held", code: "job-not-open" });
  return { job, op };
}
