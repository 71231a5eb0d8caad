// The page's process, or the whole browser, is killed up to 50 ms after a tap. What was shown as
// kept by then is in the store that is found again, and in the end on the server, once.
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { NO_OPERATION, operationHash } from "../../src/domain/evidence/operation-chain.ts";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { ask, protocol } from "../support/probe-page.ts";
import { type ProbeStage, setProbeStage } from "./probe-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(2);
const BROWSER_ROUNDS = Math.ceil(ROUNDS / 10);
const ROUNDS_A_JOB = 20;

let stage: ProbeStage;
beforeAll(async () => {
  stage = await setProbeStage();
});
afterAll(() => stage.stop());

async function killPage(page: Page): Promise<void> {
  const crashed = page.waitForEvent("crash");
  (await protocol(page)).send("Page.crash").catch(() => undefined);
  await crashed;
}

function expectWhole(ops: readonly TabletOp[]): void {
  expect(
    ops.map(({ deviceSeq }) => deviceSeq),
    REPLAY,
  ).toEqual(ops.map((_, index) => index + 1));
  const before = [NO_OPERATION, ...ops.map(operationHash)];
  expect(
    ops.map(({ prevHash }) => prevHash),
    REPLAY,
  ).toEqual(before.slice(0, ops.length));
}

/** A page that keeps without end; killed a while after it told of so many. */
async function keepUntil(page: Page, told: TabletOp[], chance: Chance): Promise<void> {
  const most = chance.between(1, 6);
  const bytes = chance.pick([0, 0, 40_000]);
  const holdUpMs = chance.pick([0, 70]);
  page.evaluate(`void probe.keepOn(${bytes}, ${holdUpMs})`).catch(() => undefined);
  await expect.poll(() => told.length >= most, { interval: 1, timeout: 20_000 }).toBe(true);
  await new Promise((resolve) => setTimeout(resolve, chance.between(0, 50)));
}

async function oneKill(
  { jobId }: PracticeJob,
  chance: Chance,
  at: string,
  kill: (page: Page) => Promise<void>,
): Promise<TabletOp[]> {
  const told: TabletOp[] = [];
  const page = await stage.pages.open(stage.context, { jobId, at, told: (op) => told.push(op) });
  const isSending = chance.share() < 0.5;
  if (isSending) await stage.pages.signIn(page);
  const keeping = keepUntil(page, told, chance);
  if (isSending) page.evaluate("void probe.round()").catch(() => undefined);
  await keeping;
  await kill(page);
  await page.close().catch(() => undefined);
  const again = await stage.pages.open(stage.context, { jobId, at });
  const ops = await ask<TabletOp[]>(again, "ops()");
  expect(ops, REPLAY).toEqual(expect.arrayContaining(told));
  expectWhole(ops);
  await stage.pages.signIn(again);
  expect(await ask(again, "round()"), REPLAY).toMatchObject({ state: "settled" });
  expect(await ask(again, "counts()"), REPLAY).toMatchObject({ waiting: 0, held: 0, refused: 0 });
  await again.close();
  return told;
}

test.each([
  ["page", ROUNDS, killPage],
  ["browser", BROWSER_ROUNDS, () => stage.killBrowser()],
] as const)(
  `what was kept before the %s was killed, %d times, is there (${REPLAY})`,
  {
    timeout: 60_000 + ROUNDS * 6000,
  },
  async (what, rounds, kill) => {
    const chance = chanceOf(SEED);
    let job = await stage.job();
    for (let round = 0; round < rounds; round += 1) {
      if (round % ROUNDS_A_JOB === 0) job = await stage.job();
      await stage.tally.add(await oneKill(job, chance, stage.newAddress(what), kill));
    }
    stage.tally.tell(`${what} killed up to 50 ms after a tap`, rounds);
  },
);
