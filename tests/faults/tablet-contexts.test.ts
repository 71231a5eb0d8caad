// Two tablets, each a browser of its own, on one job: both keep without signal, answer the same
// items, and send side by side over a signal that comes and goes. Both answers are there in the
// end, in each tablet's order, and those that did not know of each other are shown to the office.
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { startService, type TestService } from "../support/app.ts";
import { launchBrowser } from "../support/browser.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { ask, ProbePages } from "../support/probe-page.ts";
import { expectExactlyOnce } from "./exactly-once.ts";
import { factOf } from "./keeper-stage.ts";
import { REPLAY, Tally } from "./tally.ts";

const ROUNDS = roundsOf(2);
let service: TestService;
let tally: Tally;
let pages: ProbePages;
let browser: Browser;

beforeAll(async () => {
  service = await startService();
  tally = await Tally.of(service.ownerUrl);
  pages = await ProbePages.before(service);
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await tally.close();
  await service.stop();
});

const figures = { "rounds without signal": 0, "same item on both": 0, differing: 0 };

class RealTablet {
  readonly kept: TabletOp[] = [];
  readonly page: Page;
  readonly #context: BrowserContext;

  private constructor(context: BrowserContext, page: Page) {
    this.#context = context;
    this.page = page;
  }

  static async on({ jobId }: PracticeJob): Promise<RealTablet> {
    const context = await browser.newContext();
    const at = `http://localhost:${pages.port}`;
    const tablet = new RealTablet(context, await pages.open(context, { jobId, at }));
    await pages.signIn(tablet.page);
    return tablet;
  }

  async keep(job: PracticeJob, chance: Chance): Promise<void> {
    const few = job.answers().slice(0, 4);
    const { payload } = factOf(job, chance, new Date().toISOString(), few);
    const said = JSON.stringify(payload);
    this.kept.push(await ask<TabletOp>(this.page, `keepFact(${said})`));
  }

  /** Sends; the signal may go in the middle of it. */
  async send(chance: Chance): Promise<void> {
    const sending = ask<{ state: string }>(this.page, "round()");
    if (chance.share() < 0.4) {
      await new Promise((resolve) => setTimeout(resolve, chance.between(0, 30)));
      await this.#context.setOffline(true);
    }
    const { state } = await sending;
    expect(["settled", "offline"], REPLAY).toContain(state);
    figures["rounds without signal"] += state === "offline" ? 1 : 0;
    if (chance.share() < 0.5) await this.#context.setOffline(false);
  }

  async comeHome(): Promise<void> {
    await this.#context.setOffline(false);
    expect(await ask(this.page, "round()"), REPLAY).toMatchObject({ state: "settled" });
    const none = { waiting: 0, held: 0, refused: 0 };
    expect(await ask(this.page, "counts()"), REPLAY).toMatchObject(none);
  }

  close = (): Promise<void> => this.#context.close();
}

const itemOf = ({ payload }: TabletOp): string | undefined =>
  payload.kind === "answer" ? `${payload.answer.itemId} ${payload.answer.subject}` : undefined;

function countSame([one, other]: [RealTablet, RealTablet]): number {
  const items = new Set(one.kept.map(itemOf));
  return other.kept.filter((op) => itemOf(op) !== undefined && items.has(itemOf(op))).length;
}

async function oneJob(chance: Chance): Promise<void> {
  const job = await addPracticeJob(service);
  const tablets: [RealTablet, RealTablet] = [await RealTablet.on(job), await RealTablet.on(job)];
  for (let step = 0; step < 4; step += 1) {
    for (let each = chance.between(1, 3); each > 0; each -= 1) {
      await Promise.all(tablets.map((tablet) => tablet.keep(job, chance)));
    }
    if (chance.share() < 0.7) await Promise.all(tablets.map((tablet) => tablet.send(chance)));
    else await chance.pick(tablets).send(chance);
  }
  await Promise.all(tablets.map((tablet) => tablet.comeHome()));
  await tally.add(tablets.flatMap(({ kept }) => kept));
  const rows = tablets.map(({ kept }) => ({ deviceId: kept[0]?.deviceId ?? "", kept }));
  await expectExactlyOnce(tally.client, job.jobId, rows, REPLAY);
  figures["same item on both"] += countSame(tablets);
  const sql = "SELECT count(*)::int AS many FROM tablet_op WHERE job_id = $1 AND differs";
  figures.differing += (await tally.client.query(sql, [job.jobId])).rows[0].many;
  for (const tablet of tablets) await tablet.close();
}

test(`${ROUNDS} jobs on two tablets at once end up with what both kept (${REPLAY})`, {
  timeout: 60_000 + ROUNDS * 10_000,
}, async () => {
  const chance = chanceOf(SEED);
  for (let round = 0; round < ROUNDS; round += 1) await oneJob(chance);
  tally.tell("two browsers on one job", ROUNDS, figures);
});
