// The server has stored, and the tablet does not hear of it.
import { afterAll, beforeAll, expect, test } from "vitest";
import { chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { type FaultStage, sendThrough, setFaultStage } from "./tablet-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(100);
const OPS_A_JOB = 20;
const timeout = 30_000 + ROUNDS * 500;

let stage: FaultStage;
beforeAll(async () => {
  stage = await setFaultStage();
});
afterAll(() => stage.stop());

test(`${ROUNDS} operations whose reply is lost after the commit are stored once (${REPLAY})`, {
  timeout,
}, async () => {
  const chance = chanceOf(SEED);
  for (let done = 0; done < ROUNDS; done += OPS_A_JOB) {
    const job = await stage.job();
    const tablet = stage.tablet(job);
    for (let count = 0; count < OPS_A_JOB; count += 1) {
      const cutReplyAt = chance.share() < 0.7 ? 0 : chance.between(1, 120);
      const { lost, result } = await sendThrough(stage, tablet, chance, { cutReplyAt });
      expect([lost, result?.repeated], REPLAY).toEqual([undefined, true]);
    }
    await stage.expectExactlyOnce(job, [tablet]);
  }
  stage.tally.tell("reply lost after the commit", ROUNDS);
});
