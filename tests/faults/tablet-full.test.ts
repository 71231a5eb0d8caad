// A tablet whose store fills up: `keep` comes back, and then the operation and its photo end up on
// the server once; or it is refused as "full" with nothing written, and works again with room.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { CDPSession, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import type { Counts } from "../../src/tablet/contract.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { ask, protocol } from "../support/probe-page.ts";
import { type ProbeStage, setProbeStage } from "./probe-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(2);
const ROUNDS_A_JOB = 20;
const folder = mkdtempSync(join(tmpdir(), "holdpoint-full-"));

let stage: ProbeStage;
beforeAll(async () => {
  stage = await setProbeStage({ DATA_DIR: folder });
});
afterAll(async () => {
  await stage.stop();
  rmSync(folder, { recursive: true, force: true });
});

const figures = { refused: 0, "sent while full": 0, photos: 0 };

/** Keeps until it is refused. The browser's own measure of room lags; it is met in the end. */
async function keepUntilFull(page: Page, chance: Chance, kept: TabletOp[]): Promise<void> {
  for (let tries = 0; tries < 60; tries += 1) {
    const before = await ask<Counts>(page, "counts()");
    const bytes = chance.share() < 0.2 ? 0 : chance.between(20_000, 250_000);
    const outcome = await ask<TabletOp | string>(page, `tryToKeep(${bytes})`);
    if (typeof outcome !== "string") {
      kept.push(outcome);
      continue;
    }
    expect(outcome, REPLAY).toBe("full");
    figures.refused += 1;
    expect(await ask(page, "counts()"), REPLAY).toEqual(before);
    expect(await ask(page, "health()"), REPLAY).toMatchObject({ room: "full", lost: 0 });
    return;
  }
  throw new Error("the store was never full");
}

async function roomFor(cdp: CDPSession, origin: string, quotaSize?: number): Promise<void> {
  const size = quotaSize === undefined ? {} : { quotaSize };
  await cdp.send("Storage.overrideQuotaForOrigin", { origin, ...size });
}

async function oneTablet({ jobId }: PracticeJob, chance: Chance): Promise<TabletOp[]> {
  const at = stage.newAddress("full");
  const kept: TabletOp[] = [];
  const cdp = await protocol(await stage.context.newPage());
  await roomFor(cdp, at, chance.between(300_000, 900_000));
  const page = await stage.pages.open(stage.context, { jobId, at });
  await stage.pages.signIn(page);
  await keepUntilFull(page, chance, kept);
  if (chance.share() < 0.5) {
    figures["sent while full"] += 1;
    // What the service answers may not fit either; it is asked again later.
    expect(["settled", "busy"], REPLAY).toContain(
      (await ask<{ state: string }>(page, "round()")).state,
    );
    await keepUntilFull(page, chance, kept);
  }
  await roomFor(cdp, at);
  kept.push(await ask<TabletOp>(page, `keep(${chance.between(1000, 250_000)})`));
  await expectSent(page, kept);
  await page.close();
  await cdp.detach();
  return kept;
}

async function expectSent(page: Page, kept: readonly TabletOp[]): Promise<void> {
  expect(await ask(page, "round()"), REPLAY).toMatchObject({ state: "settled" });
  const ops = await ask<TabletOp[]>(page, "ops()");
  expect(ops, REPLAY).toEqual(kept);
  const none = { waiting: 0, held: 0, refused: 0, photosWaiting: 0 };
  expect(await ask(page, "counts()"), REPLAY).toMatchObject(none);
  const wanted = kept.flatMap(({ photoSha256 }) => photoSha256);
  const { rows } = await stage.tally.client.query(
    "SELECT sha256 FROM photo WHERE sha256 = ANY($1)",
    [wanted],
  );
  expect(rows.map(({ sha256 }) => sha256).sort(), REPLAY).toEqual(wanted.sort());
  figures.photos += wanted.length;
}

test(`${ROUNDS} stores that fill up lose nothing that was kept (${REPLAY})`, {
  timeout: 60_000 + ROUNDS * 10_000,
}, async () => {
  const chance = chanceOf(SEED);
  let job = await stage.job();
  for (let round = 0; round < ROUNDS; round += 1) {
    if (round % ROUNDS_A_JOB === 0) job = await stage.job();
    await stage.tally.add(await oneTablet(job, chance));
    // The server's pictures are compared by their rows; a long run must not fill the disk.
    rmSync(join(folder, "photos"), { recursive: true, force: true });
  }
  stage.tally.tell("stores that fill up", ROUNDS, figures);
});
