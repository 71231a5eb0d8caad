// The tablet's store and sending against the real service, through everything at once, by chance:
// crashes, lost replies, doubled requests, faults, sign-on pages, clocks that jump by ten years,
// sessions that end, stores that are cleared and brought back from a file. However it goes, in the
// end every operation that was shown as kept is on the server exactly once. SEED=… repeats a run,
// FAULT_ROUNDS=… makes it longer.
import { afterAll, beforeAll, expect, test } from "vitest";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import { expectExactlyOnce } from "../faults/exactly-once.ts";
import { Tally } from "../faults/tally.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { BusyPerson } from "./support/busy-person.ts";

const ROUNDS = roundsOf(4);
const STEPS = 60;
let service: TestService;
let tally: Tally;
let origin: string;

beforeAll(async () => {
  service = await startService();
  origin = await service.app.listen({ port: 0, host: "127.0.0.1" });
  tally = await Tally.of(service.ownerUrl);
});
afterAll(async () => {
  await tally.close();
  await service.stop();
});

async function personOn(job: PracticeJob, seed: number): Promise<BusyPerson> {
  const { id, email } = service.firm.people.installer;
  const firmId = service.firm.firmId;
  const credentials = { email, password: PASSWORD };
  const chances = { chance: chanceOf(seed), networkSeed: seed + 1_000_003 };
  return BusyPerson.on({ origin, firmId, personId: id, credentials, job, ...chances });
}

const byDevice = (kept: readonly TabletOp[]) =>
  [...Map.groupBy(kept, ({ deviceId }) => deviceId)].map(([deviceId, ops]) => ({
    deviceId,
    kept: ops.sort((a, b) => a.deviceSeq - b.deviceSeq),
  }));

test(`what was shown as kept is on the server exactly once (SEED=${SEED})`, {
  timeout: 30_000 + ROUNDS * 4000,
}, async () => {
  const seen = new Map<string, number>();
  for (let round = 0; round < ROUNDS; round += 1) {
    const replay = `SEED=${SEED + round} FAULT_ROUNDS=1`;
    const job = await addPracticeJob(service);
    const person = await personOn(job, SEED + round);
    for (let step = 0; step < STEPS; step += 1) await person.act();
    await person.comeHome(replay);
    await tally.add(person.kept, replay);
    await expectExactlyOnce(tally.client, job.jobId, byDevice(person.kept), replay);
    expect(await person.counts(), replay).toMatchObject({ waiting: 0, refused: 0 });
    for (const [what, count] of person.did) seen.set(what, (seen.get(what) ?? 0) + count);
    await person.leave();
  }
  tally.tell("tablet and service", ROUNDS, Object.fromEntries(seen));
  const { rows } = await tally.client.query("SELECT count(*)::int AS many FROM tablet_quarantine");
  expect(rows).toEqual([{ many: 0 }]);
});
