// A tablet whose clock is wrong by up to ten years and jumps between what it keeps and what it
// sends. A reading taken "more than a day ahead" is held with that sentence; all else is stored, in
// its order, and what the server has is still on the tablet afterwards.
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import type { CookieFetch } from "../tablet/support/cookie-fetch.ts";
import { DAY_MS, type TestTablet } from "../tablet/support/test-tablet.ts";
import { expectExactlyOnce } from "./exactly-once.ts";
import * as keeper from "./keeper-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(10);
const ROUNDS_A_JOB = 10;
const TEN_YEARS_MS = 3653 * DAY_MS;

let stage: keeper.KeeperStage;
beforeAll(async () => {
  stage = await keeper.setKeeperStage();
});
afterAll(() => stage.stop());

const figures = { jumps: 0, "replies lost": 0, held: 0 };

/** Now and then by exactly ten years, by days, or back to what is right. */
function jump(tablet: TestTablet, chance: Chance): void {
  figures.jumps += 1;
  const offsets = [TEN_YEARS_MS, -TEN_YEARS_MS, 0, chance.between(-3, 3) * DAY_MS];
  tablet.clockOffByMs = chance.pick([...offsets, chance.between(-TEN_YEARS_MS, TEN_YEARS_MS)]);
}

/** The server has done its work, and the reply is lost; meanwhile the clock may jump. */
const losing =
  (cookies: CookieFetch, tablet: TestTablet, chance: Chance): keeper.Fetch =>
  async (path, init) => {
    const reply = await cookies.fetch(path, init);
    if (!path.endsWith("/ops") || chance.share() < 0.7) return reply;
    figures["replies lost"] += 1;
    await reply.arrayBuffer();
    jump(tablet, chance);
    throw new TypeError("fetch failed");
  };

async function oneTablet(job: PracticeJob, chance: Chance): Promise<TabletOp[]> {
  const { tablet, cookies } = stage.tablet();
  tablet.clockMs = stage.now.getTime();
  jump(tablet, chance);
  const { store, sync } = await keeper.openPage(tablet, losing(cookies, tablet, chance));
  await keeper.signInTo(stage, sync);
  const kept: TabletOp[] = [];
  for (let times = chance.between(2, 5); times > 0; times -= 1) {
    kept.push(...(await keeper.keepSome({ store, tablet }, job, chance, chance.between(1, 2))));
    if (chance.share() < 0.6) jump(tablet, chance);
    if (chance.share() < 0.4) await sync.round();
    sync.pass(chance.pick([0, 1000, DAY_MS]));
  }
  const states: string[] = [];
  while (states.at(-1) !== "settled" && states.length < 30) {
    states.push((await sync.round()).state);
    sync.pass(3_600_000);
  }
  expect(states.at(-1), REPLAY).toBe("settled");
  expect((await store.ops()).map(({ op }) => op.opId).sort(), REPLAY).toEqual(
    kept.map(({ opId }) => opId).sort(),
  );
  expect(await store.counts(), REPLAY).toMatchObject({ waiting: 0, refused: 0 });
  expect((await store.health()).lost, REPLAY).toBe(0);
  await tablet.switchOff();
  return kept;
}

const isAhead = ({ payload }: TabletOp): boolean =>
  payload.kind === "answer" && Date.parse(payload.answer.takenAt) > stage.now.getTime() + DAY_MS;

test(`${ROUNDS} tablets with clocks that jump lose nothing (${REPLAY})`, {
  timeout: 30_000 + ROUNDS * 2000,
}, async () => {
  const chance = chanceOf(SEED);
  for (let done = 0; done < ROUNDS; done += ROUNDS_A_JOB) {
    const job = await stage.job();
    const rows: TabletOp[][] = [];
    for (let each = done; each < Math.min(ROUNDS, done + ROUNDS_A_JOB); each += 1) {
      rows.push(await oneTablet(job, chance));
    }
    figures.held += rows.flat().filter(isAhead).length;
    await stage.tally.add(rows.flat());
    const tablets = rows.map((kept) => ({
      ...{ deviceId: kept[0]?.deviceId ?? "", kept, isHeld: isAhead },
    }));
    await expectExactlyOnce(stage.tally.client, job.jobId, tablets, REPLAY);
  }
  stage.tally.tell("clocks that jump by up to ten years", ROUNDS, figures);
});
