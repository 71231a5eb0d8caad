// Results are being submitted when the service, its database or both are killed outright. What was
// answered 201 is stored, nothing is stored twice, the ledger is whole, and what was not answered
// can be sent again. FAULT_ROUNDS=… sets how often, of each kind; SEED=… repeats a run's moments.
import { rmSync } from "node:fs";
import { setTimeout as pause } from "node:timers/promises";
import type pg from "pg";
import { afterAll, beforeAll, expect, test } from "vitest";
import { PASSWORD } from "../support/app.ts";
import { chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { clusterFolder, startServiceIn } from "../support/own-cluster.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { checkRelations, lookBehind, readStored } from "./crash-checks.ts";
import { type Credentials, type Submitted, signIn, submit, submitAlong } from "./crash-senders.ts";
import { KINDS, Killable, type Kind } from "./killable.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(1);
const folder = clusterFolder();
const service = new Killable(folder);
const jobs: PracticeJob[] = [];
let credentials: Credentials;

beforeAll(
  async () => {
    const stage = await startServiceIn(folder);
    for (let count = 0; count < ROUNDS * KINDS.length; count += 1) {
      jobs.push(await addPracticeJob(stage));
    }
    credentials = { email: stage.firm.people.installer.email, password: PASSWORD };
    await stage.stop();
    await service.start();
  },
  60_000 + ROUNDS * 1000,
);
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

interface Figures {
  sent: number;
  acknowledged: number;
  stored: number;
  readyMs: number[];
}

/** The kill comes after so many acknowledgements, and a moment more. */
interface Moment {
  acknowledged: number;
  moreMs: number;
}

async function crashOnce(kind: Kind, job: PracticeJob, moment: Moment, figures: Figures) {
  const token = await signIn(service, credentials);
  let isKilled = false;
  const submitted: Submitted = { sent: [], acknowledged: new Set() };
  const submitting = submitAlong(service, token, job, submitted, () => !isKilled);
  while (submitted.acknowledged.size < moment.acknowledged) await pause(1);
  await pause(moment.moreMs);
  await service.kill(kind);
  isKilled = true;
  figures.readyMs.push(await service.recover(kind));
  await submitting;
  const { sent, acknowledged } = submitted;
  const client = await lookBehind(folder);
  const before = await expectKept(client, job, acknowledged);
  figures.sent += sent.length;
  figures.acknowledged += acknowledged.size;
  figures.stored += before.size;
  const again = kind === "database" ? token : await signIn(service, credentials);
  for (const answer of sent.filter(({ id }) => !acknowledged.has(id))) {
    expect(await submit(service, again, job.jobId, answer), `sent again, ${REPLAY}`).toBe(true);
  }
  const after = await expectKept(client, job, acknowledged);
  expect([...after].sort(), REPLAY).toEqual(sent.map(({ id }) => id).sort());
  await client.end();
}

async function expectKept(client: pg.Client, job: PracticeJob, acknowledged: Set<string>) {
  const stored = await readStored(client, job.jobId);
  expect(
    [...acknowledged].filter((id) => !stored.ids.has(id)),
    `acknowledged and lost, ${REPLAY}`,
  ).toEqual([]);
  expect(stored.miscounted, `in the ledger twice or not at all, ${REPLAY}`).toEqual([]);
  expect(stored.isChainWhole, REPLAY).toBe(true);
  return stored.ids;
}

const told = (kind: Kind, { readyMs, ...counts }: Figures): string => {
  const sorted = readyMs.toSorted((left, right) => left - right);
  const at = (share: number) =>
    `${Math.round(sorted[Math.floor((sorted.length - 1) * share)] ?? 0)}`;
  const ready = `ready again after ${at(0.5)} ms (median), ${at(0.95)} (95 %), ${at(1)} (most)`;
  const texts = Object.entries(counts).map(([name, count]) => `${count} ${name}`);
  return `kill -9 of ${kind}: ${readyMs.length} kills, ${texts.join(", ")}; ${ready} (${REPLAY})`;
};

test.each(KINDS)(
  `a kill of %s, ${ROUNDS} times, loses and doubles nothing (${REPLAY})`,
  {
    timeout: 60_000 + ROUNDS * 30_000,
  },
  async (kind) => {
    const chance = chanceOf(SEED + KINDS.indexOf(kind));
    const figures: Figures = { sent: 0, acknowledged: 0, stored: 0, readyMs: [] };
    for (let round = 0; round < ROUNDS; round += 1) {
      const job = jobs.pop();
      if (!job) throw new Error("a job for each round");
      const moment = { acknowledged: chance.between(1, 20), moreMs: chance.between(0, 30) };
      await crashOnce(kind, job, moment, figures);
    }
    expect(figures.acknowledged).toBeGreaterThan(0);
    process.stdout.write(`${told(kind, figures)}\n`);
  },
);

test("after all kills PostgreSQL's own check finds every table and index whole", async () => {
  const client = await lookBehind(folder);
  const { checked, faults } = await checkRelations(client);
  await client.end();
  expect(faults).toEqual([]);
  expect(checked).toBeGreaterThan(100);
  process.stdout.write(`amcheck: ${checked} tables and indexes, ${faults.length} faults\n`);
});
