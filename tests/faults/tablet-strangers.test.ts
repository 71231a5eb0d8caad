// The server is not reached: it refuses, or something on the way answers for it.
import { afterAll, beforeAll, expect, test } from "vitest";
import { chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { htmlPage, refusing } from "./fault-proxy.ts";
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

const STRANGERS = {
  "500": refusing(500),
  "502": refusing(502),
  "503": refusing(503),
  "429": refusing(429),
  "sign-on page": htmlPage("Welcome to the guest network. Accept our terms to go on."),
  "half a page": htmlPage('{"results": [').replace("</html>", ""),
} as const;

test(`${ROUNDS} operations that something else answers for are stored once (${REPLAY})`, {
  timeout,
}, async () => {
  const chance = chanceOf(SEED);
  const figures: Record<string, number> = {};
  const kinds = Object.keys(STRANGERS) as (keyof typeof STRANGERS)[];
  for (let done = 0; done < ROUNDS; done += OPS_A_JOB) {
    const job = await stage.job();
    const tablet = stage.tablet(job);
    for (let count = 0; count < OPS_A_JOB; count += 1) {
      const kind = chance.pick(kinds);
      figures[kind] = (figures[kind] ?? 0) + 1;
      const { lost, result } = await sendThrough(stage, tablet, chance, {
        answer: STRANGERS[kind],
      });
      expect([lost, result?.repeated], REPLAY).toEqual([undefined, false]);
    }
    await stage.expectExactlyOnce(job, [tablet]);
  }
  stage.tally.tell("answered by something else", ROUNDS, figures);
});
