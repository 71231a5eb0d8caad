// A browser that clears the tablet's store, before and after the server has answered. With an
// outbox file all is on the server once in the end. Without one, what the server had is there once,
// and the page tells how many are gone.
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { ask, clearStore, protocol } from "../support/probe-page.ts";
import { type ProbeStage, setProbeStage } from "./probe-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(4);
const ROUNDS_A_JOB = 20;

let stage: ProbeStage;
beforeAll(async () => {
  stage = await setProbeStage();
});
afterAll(() => stage.stop());

const figures = {
  ...{ "with a file": 0, "with an older file": 0, "after a lost reply": 0 },
  ...{ "under an open page": 0, "told as lost": 0 },
};

async function keepMany(page: Page, many: number): Promise<TabletOp[]> {
  const kept: TabletOp[] = [];
  for (let each = 0; each < many; each += 1) kept.push(await ask<TabletOp>(page, "keep()"));
  return kept;
}

/** The server has done its work, and the reply is lost. */
async function sendInVain(page: Page): Promise<void> {
  const cdp = await protocol(page);
  cdp.on("Fetch.requestPaused", ({ requestId }) => {
    void cdp.send("Fetch.failRequest", { requestId, errorReason: "ConnectionReset" });
  });
  const patterns = [{ urlPattern: "*/tablet/ops", requestStage: "Response" as const }];
  await cdp.send("Fetch.enable", { patterns });
  expect(await ask(page, "round()"), REPLAY).toMatchObject({ state: "offline" });
  await cdp.detach();
}

interface Row {
  /** The server has these, and the tablet knows. */
  settled: TabletOp[];
  /** The tablet knows of no answer. */
  unsent: TabletOp[];
  /** The server has those too. */
  isReplyLost: boolean;
  file: string | undefined;
  /** Kept after the file was saved, so that nothing brings them back. */
  beyond: TabletOp[];
}

async function keepRow(page: Page, chance: Chance): Promise<Row> {
  const settled = await keepMany(page, chance.between(0, 4));
  if (settled.length > 0 || chance.share() < 0.5) {
    expect(await ask(page, "round()"), REPLAY).toMatchObject({ state: "settled" });
  }
  const unsent = await keepMany(page, chance.between(0, 4));
  const isReplyLost = unsent.length > 0 && chance.share() < 0.3;
  if (isReplyLost) await sendInVain(page);
  const file = chance.share() < 0.5 ? await ask<string>(page, "file()") : undefined;
  const isOld = file !== undefined && chance.share() < 0.3;
  const beyond = isOld ? await keepMany(page, chance.between(1, 2)) : [];
  return { settled, unsent, isReplyLost, file, beyond };
}

/** What the page says is lost, before and after the file is taken back in. */
async function expectTold(page: Page, { unsent, file, beyond }: Row): Promise<void> {
  const lost = unsent.length + beyond.length;
  expect(await ask(page, "health()"), REPLAY).toMatchObject({ lost });
  figures["told as lost"] += file === undefined ? lost : beyond.length;
  if (file === undefined) return;
  figures["with a file"] += 1;
  figures["with an older file"] += beyond.length > 0 ? 1 : 0;
  expect(await ask(page, `restore(${JSON.stringify(file)})`), REPLAY).toBe(unsent.length);
  expect(await ask(page, "health()"), REPLAY).toMatchObject({ lost: beyond.length });
}

/** What is to be on the server in the end. */
async function oneTablet({ jobId }: PracticeJob, chance: Chance): Promise<TabletOp[]> {
  const at = stage.newAddress("cleared");
  const before = await stage.pages.open(stage.context, { jobId, at });
  await stage.pages.signIn(before);
  const row = await keepRow(before, chance);
  await clearStore(before);
  const isOpen = chance.share() < 0.5;
  const later = isOpen ? await keepMany(before, 1) : [];
  if (!isOpen) await before.close();
  const page = isOpen ? before : await stage.pages.open(stage.context, { jobId, at });
  later.push(...(await keepMany(page, chance.between(0, 2))));
  await expectTold(page, row);
  expect(await ask(page, "round()"), REPLAY).toMatchObject({ state: "settled" });
  const none = { waiting: 0, held: 0, refused: 0 };
  expect(await ask(page, "counts()"), REPLAY).toMatchObject(none);
  await page.close();
  figures["after a lost reply"] += row.isReplyLost ? 1 : 0;
  figures["under an open page"] += isOpen ? 1 : 0;
  const isGone = row.file === undefined && !row.isReplyLost;
  await expectNone([...row.beyond, ...(isGone ? row.unsent : [])]);
  return [...row.settled, ...(isGone ? [] : row.unsent), ...later];
}

/** Gone for good: that is what the page told of. */
async function expectNone(gone: readonly TabletOp[]): Promise<void> {
  const ids = gone.map(({ opId }) => opId);
  const sql = "SELECT op_id FROM tablet_op WHERE op_id = ANY($1::uuid[])";
  expect((await stage.tally.client.query(sql, [ids])).rows, REPLAY).toEqual([]);
}

test(`${ROUNDS} stores that the browser clears double nothing and tell what is lost (${REPLAY})`, {
  timeout: 60_000 + ROUNDS * 6000,
}, async () => {
  const chance = chanceOf(SEED);
  let job = await stage.job();
  for (let round = 0; round < ROUNDS; round += 1) {
    if (round % ROUNDS_A_JOB === 0) job = await stage.job();
    await stage.tally.add(await oneTablet(job, chance));
  }
  stage.tally.tell("stores cleared by the browser", ROUNDS, figures);
});
