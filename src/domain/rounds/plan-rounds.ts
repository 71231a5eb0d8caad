// Requirement: due sites grouped and ordered into day rounds per crew within working hours, with
// drive time, work, time windows, skills and loads (product rule). A plan is a proposal: the office
// decides.
import { leftOutReason } from "./left-out-reason.ts";
import { type Effort, searchRounds } from "./plan-search.ts";
import { networkOf } from "./round-network.ts";
import type { LeftOut, Round, RoundsPlan } from "./rounds-plan.ts";
import { problemWith, type RoundsProblem } from "./rounds-problem.ts";
import { seededChance } from "./seeded-chance.ts";
import { timedRound } from "./timed-round.ts";

/**
 * Rounds that place as many visits as they can (by priority), then drive as little as they can. The
 * same problem, seed and iterations give the same plan; with `shareSpent` it depends on the
 * caller's clock. Refuses a problem that contradicts itself with a sentence.
 */
export function planRounds(
  problem: RoundsProblem,
  options: Effort & { seed: number },
): { ok: true; plan: RoundsPlan } | { ok: false; problem: string } {
  const wrong = problemWith(problem);
  if (wrong !== undefined) return { ok: false, problem: wrong };
  const state = searchRounds(networkOf(problem), options, seededChance(options.seed));
  const rounds = problem.crewDays.flatMap((crew, index): Round[] => {
    const visits = state.stopsOf(index).flatMap((visit) => problem.visits[visit] ?? []);
    return visits.length > 0 ? [timedRound(problem, crew, visits)] : [];
  });
  const leftOut = problem.visits
    .filter((_, visit) => state.roundOf[visit] === -1)
    .map((visit) => leftOutReason(problem, visit));
  return { ok: true, plan: planOf(problem, rounds, leftOut) };
}

function planOf(
  problem: RoundsProblem,
  rounds: readonly Round[],
  leftOut: readonly LeftOut[],
): RoundsPlan {
  const driveMin = rounds.reduce((sum, round) => sum + round.driveMin, 0);
  const distanceM = rounds.reduce((sum, round) => sum + round.distanceM, 0);
  const placed = problem.visits.length - leftOut.length;
  const drive = `${Math.round(driveMin)} minutes and ${Math.round(distanceM / 1000)} km of driving`;
  const rest = leftOut.length > 0 ? ` ${count(leftOut.length, "visit")} left out.` : "";
  const placedIn = `${count(placed, "visit")} in ${count(rounds.length, "round")}`;
  const sentence = `${placedIn}, ${drive}.${rest}`;
  return { rounds, leftOut, driveMin, distanceM, sentence };
}

const count = (number: number, noun: string): string =>
  `${number} ${noun}${number === 1 ? "" : "s"}`;
