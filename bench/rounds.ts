// Day rounds beside published optima: how far above the optimum two seconds of work come. Seconds
// of processor time, so that other work on the machine does not count; with three seeds each.

import { planRounds } from "../src/domain/rounds/plan-rounds.ts";
import type { RoundsProblem } from "../src/domain/rounds/rounds-problem.ts";
import { estimatedTravel } from "../src/domain/rounds/travel.ts";
import { tourProblem, windowProblem } from "../tests/domain/rounds/instances.ts";
import { WINDOW_INSTANCES } from "../tests/domain/rounds/tables/solomon.ts";
import { TOURS } from "../tests/domain/rounds/tables/tsplib.ts";
import { chanceOf } from "../tests/support/chance.ts";
import { row } from "./row.ts";

const EFFORT_S = Number(process.argv[2] ?? 2);
const SEEDS = [1, 2, 3];

const processorS = (): number => process.cpuUsage().user / 1e6;

function driveMinutes(problem: RoundsProblem, seed: number): number {
  const began = processorS();
  const shareSpent = (): number => (processorS() - began) / EFFORT_S;
  const planned = planRounds(problem, { shareSpent, seed });
  if (!planned.ok) throw new Error(planned.problem);
  if (planned.plan.leftOut.length > 0) throw new Error("a visit of the bench was left out");
  return planned.plan.driveMin;
}

function print(name: string, problem: RoundsProblem, optimum: number): void {
  const above = SEEDS.map((seed) => (driveMinutes(problem, seed) / optimum - 1) * 100);
  const [least = 0, , most = 0] = [...above].sort((a, b) => a - b);
  const mean = above.reduce((sum, one) => sum + one, 0) / above.length;
  const figures = [least, mean, most].map((one) => one.toFixed(2)).join(" / ");
  row(`round plan ${name}`, `${figures} % above`, `published optimum ${optimum}`, "–", "≤ 2 %");
}

/** A firm's week: 60 sites, three crews on four days, windows for a third of the sites. */
function firmWeek(): RoundsProblem {
  const chance = chanceOf(7);
  const positions = Array.from({ length: 61 }, () => ({
    latitudeDeg: 52 + chance.share() * 0.6,
    longitudeDeg: -1.5 + chance.share(),
  }));
  const crewDays = Array.from({ length: 12 }, (_, index) => {
    const startsMin = Math.floor(index / 3) * 1440 + 480;
    const place = { startPlace: 0, endPlace: 0 };
    return {
      id: `c${index}`,
      label: `Crew ${index}`,
      ...place,
      startsMin,
      endsMin: startsMin + 540,
    };
  });
  const visits = Array.from({ length: 60 }, (_, index) => {
    const fromMin = chance.between(0, 3) * 1440 + 480 + 60 * chance.between(0, 5);
    const windows = chance.share() < 1 / 3 ? [{ fromMin, toMin: fromMin + 120 }] : undefined;
    return { id: `v${index}`, label: `Site ${index}`, place: index + 1, workMin: 45, windows };
  });
  return { crewDays, visits, travel: estimatedTravel(positions), crewDayMin: 60 };
}

console.log(
  `above the optimum after ${EFFORT_S} s of processor time: least / mean / most of 3 seeds`,
);
for (const tour of TOURS) print(tour.name, tourProblem(tour), tour.optimum);
// In tenths, as the published lengths are cut to one decimal.
for (const one of WINDOW_INSTANCES) {
  print(one.name, windowProblem(one), Math.round(one.optimum * 10));
}
const week = firmWeek();
for (const iterations of [0, 2000, 20_000]) {
  const began = processorS();
  const planned = planRounds(week, { iterations, seed: 1 });
  const tookMs = (processorS() - began) * 1000;
  const words = planned.ok ? planned.plan.sentence : planned.problem;
  console.log(`a week of 60 sites, ${iterations} iterations, ${tookMs.toFixed(0)} ms: ${words}`);
}
