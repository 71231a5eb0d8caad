// Everything that the scenario's jobs say, read in Spanish: what is stored, what the gate finds and
// what comes next. What people wrote into plans stays as they wrote it.
import { afterAll, beforeAll, expect, test } from "vitest";
import { nextOf } from "../../src/domain/closeout/next.ts";
import { evaluateJob } from "../../src/features/close-out/evaluate.ts";
import { toAnswers } from "../../src/features/job-record/context.ts";
import { retell, untoldIn } from "../../src/language/sentences/retell.ts";
import { type DemoDatabase, loadedDemo } from "../support/demo.ts";

let demo: DemoDatabase;
const now = new Date("2026-11-25T09:00:00Z");

beforeAll(async () => {
  demo = await loadedDemo(now);
});
afterAll(() => demo.end());

/** What a job says, and the text of its plan. */
async function saidOf(jobId: string): Promise<{ sentences: string[]; plan: string }> {
  return demo.read(async (tx) => {
    const job = await evaluateJob(tx, jobId, now, { lock: false });
    if (!job) throw new Error(`there is no job ${jobId}`);
    const { facts, blockers } = job.result;
    const { steps } = nextOf(job.plan, toAnswers(job.record.answers), job.context);
    const hindrances = steps.flatMap(({ blockedBy }) => blockedBy);
    const verdicts = job.record.answers.map(({ verdict }) => verdict as { sentence: string });
    const told = [...facts, ...blockers, ...steps, ...hindrances, ...verdicts];
    const ways = [...blockers, ...hindrances].map(({ toClear }) => toClear);
    const sentences = [...told.map(({ sentence }) => sentence), ...ways];
    return { sentences: [...new Set(sentences)], plan: JSON.stringify(job.plan.plan) };
  });
}

const isWords = (text: string): boolean => /\p{Ll}{3}/u.test(text);

test("no verdict, blocker or step of the scenario has a part left in English", async () => {
  const left: string[] = [];
  let told = 0;
  for (const jobId of demo.jobIds.values()) {
    const { sentences, plan } = await saidOf(jobId);
    for (const sentence of sentences) {
      const open = untoldIn("es", sentence).filter((part) => isWords(part) && !plan.includes(part));
      if (open.length > 0) left.push(`${sentence} → ${retell("es", sentence)}`);
      else if (retell("es", sentence) !== sentence) told += 1;
    }
  }
  expect([...new Set(left)]).toEqual([]);
  expect(told).toBeGreaterThan(100);
});
