// A network that delivers twice, side by side, and in any order.
import { afterAll, beforeAll, expect, test } from "vitest";
import { chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { type FaultStage, setFaultStage } from "./tablet-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(60);
const OPS_A_JOB = 20;
const timeout = 30_000 + ROUNDS * 500;

let stage: FaultStage;
beforeAll(async () => {
  stage = await setFaultStage();
});
afterAll(() => stage.stop());

test(`${ROUNDS} operations delivered up to four times are each stored once (${REPLAY})`, {
  timeout,
}, async () => {
  const chance = chanceOf(SEED);
  let deliveries = 0;
  for (let done = 0; done < ROUNDS; done += OPS_A_JOB) {
    const job = await stage.job();
    const tablet = stage.tablet(job);
    for (let count = 0; count < OPS_A_JOB; count += 1) {
      const op = tablet.keep(chance);
      const times = chance.between(2, 4);
      deliveries += times;
      const isSideBySide = chance.share() < 0.5;
      const replies = isSideBySide
        ? await Promise.all(Array.from({ length: times }, () => stage.direct.send([op])))
        : await inTurn(times, () => stage.direct.send([op]));
      const results = replies.map((reply) => reply?.results[0]);
      const first = results.filter((result) => result?.repeated === false);
      expect([results.length, first.length], REPLAY).toEqual([times, 1]);
      for (const result of results) {
        expect({ ...result, repeated: false }, REPLAY).toEqual(first[0]);
      }
    }
    await stage.expectExactlyOnce(job, [tablet]);
  }
  stage.tally.tell("delivered more than once", ROUNDS, { deliveries });
});

async function inTurn<Reply>(times: number, send: () => Promise<Reply>): Promise<Reply[]> {
  const replies: Reply[] = [];
  for (let count = 0; count < times; count += 1) replies.push(await send());
  return replies;
}

test(`${ROUNDS} operations in any order end up in their tablet's order (${REPLAY})`, {
  timeout,
}, async () => {
  const chance = chanceOf(SEED + 1);
  const figures = { sends: 0, early: 0 };
  for (let done = 0; done < ROUNDS; done += OPS_A_JOB) {
    const job = await stage.job();
    const tablet = stage.tablet(job);
    for (let count = 0; count < OPS_A_JOB; count += 1) tablet.keep(chance);
    while (tablet.through < OPS_A_JOB) {
      const from = Math.max(0, tablet.through - chance.between(0, 3));
      const size = chance.between(2, 8);
      const batch = tablet.kept.slice(from, from + size);
      const shuffled = batch
        .map((op) => ({ op, place: chance.share() }))
        .sort((a, b) => a.place - b.place)
        .map(({ op }) => op);
      const reply = await stage.direct.send(shuffled);
      expect(reply?.results, REPLAY).toHaveLength(batch.length);
      figures.sends += 1;
      figures.early += reply?.results.filter(({ outcome }) => outcome === "early").length ?? 0;
      tablet.learn(reply);
    }
    await stage.expectExactlyOnce(job, [tablet]);
  }
  expect(figures.early, REPLAY).toBeGreaterThan(0);
  stage.tally.tell("out of order", ROUNDS, figures);
});
