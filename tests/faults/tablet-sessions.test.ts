// Two weeks without signal, and meanwhile the session is ended on the server: signed out from
// elsewhere, on every device, by the office, by its refresh token used again, or by its age. What
// waits stays, "sign in" is said, and after signing in it goes, once.
import { afterAll, afterEach, beforeAll, beforeEach, expect, test, vi } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import type { CookieFetch } from "../tablet/support/cookie-fetch.ts";
import { DAY_MS } from "../tablet/support/test-tablet.ts";
import { expectExactlyOnce } from "./exactly-once.ts";
import { keepSome, openPage, setKeeperStage, signInTo } from "./keeper-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(5);
/** More than one request carries, so that a session can end between two of them. */
const MANY = 60;

let stage: Awaited<ReturnType<typeof setKeeperStage>>;
beforeAll(async () => {
  stage = await setKeeperStage();
});
afterAll(() => stage.stop());
// Only what tells the time of day: tokens and sessions run out by it.
beforeEach(() => void vi.useFakeTimers({ toFake: ["Date"], now: stage.now }));
afterEach(() => void vi.useRealTimers());

const MINUTE_MS = 60_000;
const passTime = (ms: number): void => void vi.setSystemTime(Date.now() + ms);

type Ending = (cookies: CookieFetch) => Promise<unknown>;

const ENDINGS: Readonly<Record<string, Ending>> = {
  "signed out": (cookies) => endElsewhere(cookies, "/api/v1/session"),
  "signed out everywhere": (cookies) => endElsewhere(cookies, "/api/v1/sessions"),
  "token used by another": async (cookies) => {
    await renew(cookies.copy());
    passTime(16 * MINUTE_MS);
  },
  "revoked by the office": async () => {
    await inFirm(stage.service.db, stage.service.firm.firmId, (tx) =>
      tx.session.updateMany({ data: { revokedAt: new Date() } }),
    );
    passTime(MINUTE_MS);
  },
  "run out": async () => passTime(31 * DAY_MS),
};

async function renew(cookies: CookieFetch): Promise<CookieFetch> {
  const headers = { "content-type": "application/json" };
  const reply = await cookies.fetch("/api/v1/session/refresh", {
    ...{ method: "POST", body: "{}", headers },
  });
  expect(reply.status).toBe(201);
  return cookies;
}

/** By the same cookies in other hands. */
async function endElsewhere(cookies: CookieFetch, path: string): Promise<void> {
  const elsewhere = await renew(cookies.copy());
  expect((await elsewhere.fetch(path, { method: "DELETE" })).status).toBe(204);
}

async function oneTablet(job: PracticeJob, chance: Chance, ending: Ending, inTheMiddle: boolean) {
  vi.setSystemTime(stage.now);
  const { tablet, cookies } = stage.tablet();
  tablet.clockMs = stage.now.getTime();
  let requests = 0;
  const { store, sync } = await openPage(tablet, async (path, init) => {
    if (path.endsWith("/ops")) requests += 1;
    if (inTheMiddle && path.endsWith("/ops") && requests === 2) await ending(cookies);
    return cookies.fetch(path, init);
  });
  await signInTo(stage, sync);
  const kept = await keepSome({ store, tablet }, job, chance, inTheMiddle ? MANY : 6);
  tablet.clockMs += 14 * DAY_MS;
  vi.setSystemTime(stage.now.getTime() + 14 * DAY_MS);
  if (!inTheMiddle) await ending(cookies);
  expect(await sync.round(), REPLAY).toMatchObject({ state: "sign-in" });
  const { waiting } = await store.counts();
  expect([waiting > 0, (await store.ops()).length], REPLAY).toEqual([true, kept.length]);
  await signInTo(stage, sync);
  expect((await sync.round()).state, REPLAY).toBe("settled");
  expect(await store.counts(), REPLAY).toMatchObject({ waiting: 0, held: 0, refused: 0 });
  await tablet.switchOff();
  return kept;
}

test(`${ROUNDS} tablets whose session ended in two weeks lose nothing (${REPLAY})`, {
  timeout: 30_000 + ROUNDS * 2000,
}, async () => {
  const chance = chanceOf(SEED);
  const figures: Record<string, number> = { "in the middle of sending": 0 };
  const kinds = Object.keys(ENDINGS);
  for (let round = 0; round < ROUNDS; round += 1) {
    const kind = kinds[round % kinds.length] as string;
    const inTheMiddle = chance.share() < 0.3;
    figures[kind] = (figures[kind] ?? 0) + 1;
    figures["in the middle of sending"]! += inTheMiddle ? 1 : 0;
    const job = await stage.job();
    const kept: TabletOp[] = await oneTablet(job, chance, ENDINGS[kind] as Ending, inTheMiddle);
    await stage.tally.add(kept);
    const tablets = [{ deviceId: kept[0]?.deviceId ?? "", kept }];
    await expectExactlyOnce(stage.tally.client, job.jobId, tablets, REPLAY);
  }
  stage.tally.tell("sessions ended while 14 days offline", ROUNDS, figures);
});
