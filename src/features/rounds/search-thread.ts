// The search runs in a thread of its own: it computes for up to two seconds, and meanwhile the
// service goes on answering.
import { Worker } from "node:worker_threads";
import type { RoundsPlan } from "../../domain/rounds/rounds-plan.ts";
import type { RoundsProblem } from "../../domain/rounds/rounds-problem.ts";
import { Problem } from "../../errors.ts";

const THREAD = new URL("./search-worker.ts", import.meta.url);
export const SEARCH_MS = 2000;
/** A search that is not back by then never will be. */
const GIVE_UP_MS = SEARCH_MS + 20_000;
const THREADS_MOST = 2;

export type Searched = { ok: true; plan: RoundsPlan } | { ok: false; problem: string };

let running = 0;

export async function searchInThread(problem: RoundsProblem, seed: number): Promise<Searched> {
  if (running >= THREADS_MOST) {
    const sentence = "Rounds are being planned already. Try again in a few seconds.";
    throw new Problem("busy", sentence, { retryAfterS: 5 });
  }
  running += 1;
  try {
    return await new Promise<Searched>((resolve, reject) => {
      const worker = new Worker(THREAD, { workerData: { problem, seed, searchMs: SEARCH_MS } });
      const timer = setTimeout(() => {
        void worker.terminate();
        reject(new Error("the search for rounds did not end"));
      }, GIVE_UP_MS);
      const settle = (then: () => void) => {
        clearTimeout(timer);
        then();
      };
      worker.once("message", (searched: Searched) => settle(() => resolve(searched)));
      worker.once("error", (error) => settle(() => reject(error)));
    });
  } finally {
    running -= 1;
  }
}
