import { parentPort, workerData } from "node:worker_threads";
import { planRounds } from "../../domain/rounds/plan-rounds.ts";
import type { RoundsProblem } from "../../domain/rounds/rounds-problem.ts";

const { problem, seed, searchMs } = workerData as {
  problem: RoundsProblem;
  seed: number;
  searchMs: number;
};
/** Of few visits the best order is found long before the time is up. */
const asksMost = 60 + problem.visits.length * 40;
const began = performance.now();
let asked = 0;
const shareSpent = (): number => {
  asked += 1;
  return Math.max(asked / asksMost, (performance.now() - began) / searchMs);
};
parentPort?.postMessage(planRounds(problem, { shareSpent, seed }));
