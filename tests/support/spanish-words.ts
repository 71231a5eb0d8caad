// What the scenario's jobs say, read in Spanish: what is stored, what the gate finds and what comes
// next. What people wrote into plans stays as they wrote it.
import { nextOf } from "../../src/domain/closeout/next.ts";
import { evaluateJob } from "../../src/features/close-out/evaluate.ts";
import { toAnswers } from "../../src/features/job-record/context.ts";
import { retell, untoldIn } from "../../src/language/sentences/retell.ts";
import type { DemoDatabase } from "./demo.ts";

/** The sentences that keep English words in Spanish. */
export async function leftInEnglish(demo: DemoDatabase, now: Date): Promise<string[]> {
  const left = new Set<string>();
  let told = 0;
  for (const jobId of demo.jobIds.values()) {
    const { sentences, plan } = await saidOf(demo, jobId, now);
    for (const sentence of sentences) {
      const open = untoldIn("es", sentence).filter((part) => isWords(part) && !plan.includes(part));
      if (open.length > 0) left.add(`${sentence} → ${retell("es", sentence)}`);
      else if (retell("es", sentence) !== sentence) told += 1;
    }
  }
  if (told < TOLD_LEAST) left.add(`only ${told} sentences were told`);
  return [...left];
}

/** Fewer would mean that the scenario was not read. */
const TOLD_LEAST = 100;

/** What a job says, and the text of its plan. */
async function saidOf(demo: DemoDatabase, jobId: string, now: Date) {
  return demo.read(async (tx) => {
    const job = await evaluateJob(tx, jobId, now, { lock: false });
    if (!job) throw new Error(`there is no job ${jobId}`);
    const { facts, blockers } = job.result;
    const { steps } = nextOf(job.plan, toAnswers(job.record.answers), job.context);
    const hindrances = steps.flatMap(({ blockedBy }) => blockedBy);
    const verdicts = job.record.answers.map(({ verdict }) => verdict as { sentence: string });
    const told = [...facts, ...blockers, ...steps, ...hindrances, ...verdicts];
    const ways = [...blockers, ...hindrances].map(({ toClear }) => toClear);
    const sentences = new Set([...told.map(({ sentence }) => sentence), ...ways]);
    return { sentences, plan: JSON.stringify(job.plan.plan) };
  });
}

const isWords = (text: string): boolean => /\p{Ll}{3}/u.test(text);
