// The connection breaks in the middle of a request, at any byte of it.
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { chanceOf, roundsOf, SEED } from "../support/chance.ts";
import type { WireAnswer } from "../support/practice-job.ts";
import { type TestTablet, testTablet } from "../support/tablet-ops.ts";
import { type FaultStage, setFaultStage } from "./tablet-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(60);
const OP_BYTES = 2048;
const CUTS_A_JOB = 40;

let stage: FaultStage;
beforeAll(async () => {
  stage = await setFaultStage();
});
afterAll(() => stage.stop());

test(`an operation of 2 KB cut at ${ROUNDS} bytes, or at every one, is stored once (${REPLAY})`, {
  timeout: 30_000 + Math.min(ROUNDS, 2 * OP_BYTES) * 200,
}, async () => {
  const places = await placesToCut();
  let inSpite = 0;
  for (let from = 0; from < places.length; from += CUTS_A_JOB) {
    const { job, tablet, answer } = await newTablet();
    const kept: TabletOp[] = [];
    for (const cutRequestAt of places.slice(from, from + CUTS_A_JOB)) {
      const op = opOfTwoKilobytes(tablet, answer);
      kept.push(op);
      stage.proxy.meet({ cutRequestAt });
      expect(await stage.sender.send([op]), REPLAY).toBe(undefined);
      const [result] = (await stage.sender.send([op]))?.results ?? [];
      expect([cutRequestAt, result?.outcome], REPLAY).toEqual([cutRequestAt, "stored"]);
      if (result?.repeated) inSpite += 1;
    }
    await stage.expectExactlyOnce(job, [{ deviceId: tablet.deviceId, kept }]);
  }
  stage.tally.tell("cut requests", places.length, { "stored in spite of it": inSpite });
});

async function newTablet() {
  const job = await stage.job();
  const answer = job.answers().find(({ itemId }) => itemId === "wall_gap");
  if (!answer) throw new Error("the practice plan asks for the gap");
  const tablet = testTablet(job.jobId, stage.service.firm.people.installer.id);
  return { job, tablet, answer };
}

/** Filled up with a note, give or take the digits of its number. */
function opOfTwoKilobytes(tablet: TestTablet, answer: WireAnswer): TabletOp {
  const bare = testTablet(tablet.deviceId, tablet.deviceId).answer({ ...answer, note: "" });
  const note = "n".repeat(OP_BYTES - JSON.stringify(bare).length);
  return tablet.answer({ ...answer, note });
}

/** Every byte of the request, or as many of them as there are rounds. */
async function placesToCut(): Promise<number[]> {
  const { tablet, answer } = await newTablet();
  const bytes = stage.sender.bytesOf([opOfTwoKilobytes(tablet, answer)]);
  expect(bytes).toBeGreaterThan(OP_BYTES);
  const all = Array.from({ length: bytes }, (_, index) => index + 1);
  if (ROUNDS >= bytes) return all;
  const chance = chanceOf(SEED);
  return Array.from({ length: ROUNDS }, () => chance.pick(all));
}
