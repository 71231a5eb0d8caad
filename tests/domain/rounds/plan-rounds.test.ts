import { describe, expect, test } from "vitest";
import { planRounds } from "../../../src/domain/rounds/plan-rounds.ts";
import type { RoundsPlan } from "../../../src/domain/rounds/rounds-plan.ts";
import type {
  CrewDay,
  RoundsProblem,
  RoundVisit,
} from "../../../src/domain/rounds/rounds-problem.ts";
import { chanceOf } from "../../support/chance.ts";
import { bestByTryingAll, costOf } from "./every-plan.ts";
import { expectKept } from "./expect-kept.ts";
import { randomRounds } from "./random-rounds.ts";

const EFFORT = { iterations: 400, seed: 3 };

describe("random rounds", () => {
  test("150 problems keep hours, windows, skills and loads, and account for every visit", () => {
    let leftOut = 0;
    let placed = 0;
    for (let seed = 0; seed < 150; seed += 1) {
      const chance = chanceOf(900 + seed);
      const problem = randomRounds(chance, chance.between(1, 4), chance.between(1, 25));
      const plan = expectKept(problem, planRounds(problem, EFFORT));
      leftOut += plan.leftOut.length;
      placed += problem.visits.length - plan.leftOut.length;
    }
    expect(leftOut).toBeGreaterThan(100);
    expect(placed).toBeGreaterThan(100);
  });

  test("100 small problems come to the best of all plans, each of which was tried", () => {
    for (let seed = 0; seed < 100; seed += 1) {
      const chance = chanceOf(5000 + seed);
      const problem = randomRounds(chance, chance.between(1, 2), chance.between(1, 5));
      const plan = expectKept(problem, planRounds(problem, { iterations: 1500, seed }));
      expect(costOf(problem, plan)).toBeCloseTo(bestByTryingAll(problem), 4);
    }
  });

  test("the same seed and iterations give the same plan, another seed may not", () => {
    const problem = randomRounds(chanceOf(77), 3, 25);
    const plans = [1, 1, 2, 3, 4].map((seed) =>
      JSON.stringify(planRounds(problem, { iterations: 64, seed })),
    );
    expect(plans[0]).toBe(plans[1]);
    expect(new Set(plans).size).toBeGreaterThan(1);
  });

  test("a search that the caller ends is ended at the share of effort it says", () => {
    const problem = randomRounds(chanceOf(78), 3, 20);
    let asked = 0;
    const shareSpent = () => asked++ / 10;
    expectKept(problem, planRounds(problem, { shareSpent, seed: 1 }));
    expect(asked).toBe(11);
  });

  test("more iterations are never worse, from the first plan on", () => {
    const problem = randomRounds(chanceOf(79), 4, 30);
    const cost = (iterations: number): number => {
      const planned = planRounds(problem, { iterations, seed: 5 });
      return costOf(problem, expectKept(problem, planned));
    };
    expect(cost(4000)).toBeLessThanOrEqual(cost(0));
  });
});

const ROW = [0, 30, 60, 90];
const table = ROW.map((from) => ROW.map((to) => Math.abs(from - to)));
const crew = (change: Partial<CrewDay> = {}): CrewDay => ({
  id: "c",
  label: "Crew",
  startPlace: 0,
  endPlace: 0,
  startsMin: 480,
  endsMin: 960,
  ...change,
});
const visit = (place: number, change: Partial<RoundVisit> = {}): RoundVisit => ({
  id: `v${place}`,
  label: `Site ${place}`,
  place,
  workMin: 60,
  ...change,
});
const problemOf = (visits: RoundVisit[], crewDays = [crew()]): RoundsProblem => ({
  crewDays,
  visits,
  travel: { minutes: table, distanceM: table.map((row) => row.map((one) => one * 1000)) },
});
const planOf = (problem: RoundsProblem): RoundsPlan =>
  expectKept(problem, planRounds(problem, EFFORT));

describe("times", () => {
  test("the crew leaves as late as it can without being home later", () => {
    const late = visit(3, { windows: [{ fromMin: 660, toMin: 720 }] });
    const { rounds } = planOf(problemOf([visit(1), late], [crew({ endsMin: 815 })]));
    expect(rounds).toHaveLength(1);
    expect(rounds[0]).toMatchObject({ leavesMin: 510, returnsMin: 810, waitMin: 0 });
    expect(rounds[0]).toMatchObject({ driveMin: 180, distanceM: 180_000, workMin: 120 });
  });

  test("where it cannot leave later, it waits at the site", () => {
    const early = visit(1, { windows: [{ fromMin: 480, toMin: 520 }] });
    const late = visit(3, { windows: [{ fromMin: 700, toMin: 720 }] });
    const { rounds } = planOf(problemOf([early, late]));
    expect(rounds[0]).toMatchObject({ leavesMin: 490, returnsMin: 850, waitMin: 60 });
  });

  test.each([
    [719, 1],
    [720, 0],
  ])("a crew that must be home at minute %d leaves out %d visits", (endsMin, leftOut) => {
    const plan = planOf(problemOf([visit(3)], [crew({ endsMin })]));
    expect(plan.leftOut).toHaveLength(leftOut);
  });

  test.each([
    [569, 1],
    [570, 0],
  ])("a window that closes at minute %d leaves out %d visits", (toMin, leftOut) => {
    const plan = planOf(problemOf([visit(3, { windows: [{ fromMin: 0, toMin }] })]));
    expect(plan.leftOut).toHaveLength(leftOut);
  });

  test("a crew day is only spent where it saves more driving than it is worth", () => {
    const crews = [crew({ id: "a" }), crew({ id: "b", startPlace: 3, endPlace: 3 })];
    const worth = (crewDayMin: number) =>
      planOf({ ...problemOf([visit(1), visit(3)], crews), crewDayMin });
    expect(worth(59).rounds).toHaveLength(2);
    expect(worth(59).driveMin).toBe(60);
    expect(worth(61).rounds).toHaveLength(1);
    expect(worth(61).driveMin).toBe(120);
  });
});

describe("what is left out says why", () => {
  const reasonsOf = (problem: RoundsProblem) =>
    planOf(problem).leftOut.map(({ reason, sentence }) => [reason, sentence]);

  test("no skill, wrong hours, too much load, too far, no room", () => {
    const day = crew({ skills: ["roof"], loadMost: 2, endsMin: 700 });
    const visits = [
      visit(1, { id: "a", label: "A", skills: ["gas"] }),
      visit(1, { id: "b", label: "B", windows: [{ fromMin: 0, toMin: 479 }] }),
      visit(1, { id: "c", label: "C", load: 3 }),
      visit(3, { id: "d", label: "D" }),
      visit(1, { id: "e", label: "E", workMin: 100, priority: 2 }),
      visit(1, { id: "f", label: "F", workMin: 100 }),
    ];
    expect(reasonsOf(problemOf(visits, [day]))).toEqual([
      ["skills", "A: no crew has gas; plan one that does."],
      ["hours", "B: no such crew works when the site can be visited; agree another time."],
      ["load", "C: its load of 3 is more than any van takes; split it."],
      ["too-far", "D: even alone it does not fit a crew's hours; start nearer or split the work."],
      ["no-room", "F: the rounds are full; add a crew day, or plan it for another day."],
    ]);
  });

  test("without any crew", () => {
    const problem = problemOf([visit(1)], []);
    expect(reasonsOf(problem)).toEqual([
      ["skills", "Site 1: no crew is planned; plan one that does."],
    ]);
  });

  test("the sentence counts visits, rounds and driving", () => {
    const plan = planOf(problemOf([visit(1), visit(2, { skills: ["gas"] })]));
    expect(plan.sentence).toBe(
      "1 visit in 1 round, 60 minutes and 60 km of driving. 1 visit left out.",
    );
  });
});

describe("a problem that contradicts itself is refused", () => {
  test.each<[string, Partial<RoundsProblem>, string]>([
    ["no such place", { visits: [visit(4)] }, "Site 4: there is no such place."],
    ["hours", { crewDays: [crew({ endsMin: 479 })] }, "Crew: the working hours end before"],
    ["window", { visits: [visit(1, { windows: [{ fromMin: 2, toMin: 1 }] })] }, "a window ends"],
    ["load", { visits: [visit(1, { load: -1 })] }, "the load is below 0"],
    ["priority", { visits: [visit(1, { priority: 0 })] }, "the priority is below 1"],
    ["work", { visits: [visit(1, { workMin: Number.NaN })] }, "minutes of work"],
    ["table", { travel: { minutes: [[0, 1]], distanceM: [[0, 1]] } }, "as many rows as columns"],
    ["sizes", { visits: Array.from({ length: 501 }, () => visit(1)) }, "at most 500"],
  ])("%s", (_, change, words) => {
    const planned = planRounds({ ...problemOf([visit(1)]), ...change }, EFFORT);
    expect(planned).toEqual({ ok: false, problem: expect.stringContaining(words) });
  });

  test("a crew day may be as long as nothing", () => {
    expect(planOf(problemOf([], [crew({ endsMin: 480 })])).sentence).toContain("0 visits");
  });
});
