// Two tablets on one job, each keeping and sending as it comes: cut off, late, twice, side by side.
// Whatever the order, the server ends up with what both kept, and flags what they did not see of
// each other.
import { afterAll, beforeAll, expect, test } from "vitest";
import type { OpResult } from "../../src/features/tablet/schemas.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { type Fault, htmlPage, refusing } from "./fault-proxy.ts";
import type { BusyTablet } from "./tablet-facts.ts";
import { type FaultStage, setFaultStage } from "./tablet-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(200);
const STEPS_A_JOB = 50;

let stage: FaultStage;
beforeAll(async () => {
  stage = await setFaultStage();
});
afterAll(() => stage.stop());

function faultByChance(chance: Chance): Fault {
  const share = chance.share();
  if (share < 0.4) return {};
  if (share < 0.55) return { cutRequestAt: chance.between(1, 2000) };
  if (share < 0.7) return { cutReplyAt: chance.between(0, 200) };
  if (share < 0.8) return { twice: true };
  if (share < 0.9) return { delayMs: chance.between(1, 5) };
  return { answer: chance.pick([refusing(503), refusing(429), htmlPage("Sign on")]) };
}

async function sendSome(tablet: BusyTablet, chance: Chance): Promise<void> {
  // From what it believes to be the next, or a little before: a lost reply is sent for again.
  const from = Math.max(0, tablet.through - chance.between(0, 2));
  const batch = tablet.kept.slice(from, from + chance.between(1, 6));
  if (batch.length === 0) return;
  stage.proxy.meet(faultByChance(chance));
  tablet.learn(await stage.sender.send(batch));
}

async function drain(tablet: BusyTablet): Promise<OpResult[]> {
  while (tablet.through < tablet.kept.length) {
    const rest = tablet.kept.slice(tablet.through, tablet.through + 100);
    const reply = await stage.direct.send(rest);
    expect(reply?.storedThrough, REPLAY).toBeGreaterThan(tablet.through);
    tablet.learn(reply);
  }
  return (await stage.direct.send(tablet.kept.slice(0, 100)))?.results ?? [];
}

test(`two tablets over ${ROUNDS} steps lose nothing and double nothing (${REPLAY})`, {
  timeout: 30_000 + ROUNDS * 500,
}, async () => {
  const chance = chanceOf(SEED);
  const figures = { sends: 0, held: 0, differing: 0 };
  for (let done = 0; done < ROUNDS; done += STEPS_A_JOB) {
    const job = await stage.job();
    const tablets = [stage.tablet(job), stage.tablet(job)];
    for (let step = 0; step < STEPS_A_JOB; step += 1) {
      const share = chance.share();
      if (share < 0.55) chance.pick(tablets).keep(chance);
      else if (share < 0.85) await sendSome(chance.pick(tablets), chance);
      else await Promise.all(tablets.map((tablet) => sendSome(tablet, chance)));
      figures.sends += share < 0.55 ? 0 : share < 0.85 ? 1 : 2;
    }
    const results = [...(await drain(tablets[0]!)), ...(await drain(tablets[1]!))];
    figures.held += results.filter(({ outcome }) => outcome === "held").length;
    figures.differing += results.filter(({ differs }) => differs).length;
    expect(
      results.every(({ repeated }) => repeated),
      REPLAY,
    ).toBe(true);
    await stage.expectExactlyOnce(job, tablets);
  }
  stage.tally.tell("two tablets", ROUNDS, figures);
});
