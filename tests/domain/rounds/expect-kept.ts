import { expect } from "vitest";
import type { planRounds } from "../../../src/domain/rounds/plan-rounds.ts";
import type { Round, RoundsPlan } from "../../../src/domain/rounds/rounds-plan.ts";
import type { RoundsProblem } from "../../../src/domain/rounds/rounds-problem.ts";

const ROUNDING = 1e-6;

/** The plan, after every promise of the problem was checked anew from its own numbers. */
export function expectKept(
  problem: RoundsProblem,
  planned: ReturnType<typeof planRounds>,
): RoundsPlan {
  if (!planned.ok) throw new Error(planned.problem);
  const { plan } = planned;
  const placed = plan.rounds.flatMap(({ stops }) => stops.map(({ visitId }) => visitId));
  const all = [...placed, ...plan.leftOut.map(({ visitId }) => visitId)].sort();
  expect(all).toEqual(problem.visits.map(({ id }) => id).sort());
  const crews = plan.rounds.map(({ crewDayId }) => crewDayId);
  expect(new Set(crews).size).toBe(crews.length);
  for (const round of plan.rounds) expectRoundKept(problem, round);
  const drive = plan.rounds.reduce((sum, { driveMin }) => sum + driveMin, 0);
  expect(plan.driveMin).toBeCloseTo(drive, 6);
  return plan;
}

function expectRoundKept({ crewDays, visits, travel }: RoundsProblem, round: Round): void {
  const crew = crewDays.find(({ id }) => id === round.crewDayId)!;
  let place = crew.startPlace;
  let time = round.leavesMin;
  let drive = 0;
  let load = 0;
  expect(time).toBeGreaterThanOrEqual(crew.startsMin - ROUNDING);
  for (const stop of round.stops) {
    const visit = visits.find(({ id }) => id === stop.visitId)!;
    const minutes = travel.minutes[place]![visit.place]!;
    expect(stop.arrivesMin).toBeCloseTo(time + minutes, 6);
    expect(stop.beginsMin).toBeGreaterThanOrEqual(stop.arrivesMin - ROUNDING);
    const windows = visit.windows ?? [{ fromMin: -1e12, toMin: 1e12 }];
    const inside = windows.some(
      ({ fromMin, toMin }) =>
        stop.beginsMin >= fromMin - ROUNDING && stop.beginsMin <= toMin + ROUNDING,
    );
    expect(inside, `${stop.label} begins within a window`).toBe(true);
    expect(crew.skills ?? []).toEqual(expect.arrayContaining([...(visit.skills ?? [])]));
    expect(stop.leavesMin).toBeCloseTo(stop.beginsMin + visit.workMin, 6);
    drive += minutes;
    load += visit.load ?? 0;
    place = visit.place;
    time = stop.leavesMin;
  }
  const home = travel.minutes[place]![crew.endPlace]!;
  expect(round.returnsMin).toBeCloseTo(time + home, 6);
  expect(round.returnsMin).toBeLessThanOrEqual(crew.endsMin + ROUNDING);
  expect(round.driveMin).toBeCloseTo(drive + home, 6);
  expect(load).toBeLessThanOrEqual((crew.loadMost ?? Number.POSITIVE_INFINITY) + ROUNDING);
}
