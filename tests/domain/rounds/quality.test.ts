// Against published optima; the instances and where they come from stand in tables/.
import { describe, expect, test } from "vitest";
import { planRounds } from "../../../src/domain/rounds/plan-rounds.ts";
import { expectKept } from "./expect-kept.ts";
import { tourProblem, windowProblem } from "./instances.ts";
import { WINDOW_INSTANCES } from "./tables/solomon.ts";
import { TOURS } from "./tables/tsplib.ts";

describe("TSPLIB tours", () => {
  test.each(TOURS)("$name comes within 2 % of its optimum $optimum", (tour) => {
    const problem = tourProblem(tour);
    const planned = planRounds(problem, { iterations: 15_000, seed: 1 });
    const plan = expectKept(problem, planned);
    expect(plan.leftOut).toEqual([]);
    expect(plan.driveMin / tour.optimum).toBeLessThanOrEqual(1.02);
    expect(plan.driveMin).toBeGreaterThanOrEqual(tour.optimum);
  });
});

describe("Solomon's problems with time windows", () => {
  test.each(WINDOW_INSTANCES)("$name comes within 5 % of its optimum $optimum", (instance) => {
    const problem = windowProblem(instance);
    const plan = expectKept(problem, planRounds(problem, { iterations: 5000, seed: 1 }));
    expect(plan.leftOut).toEqual([]);
    expect(plan.driveMin / 10 / instance.optimum).toBeLessThanOrEqual(1.05);
    expect(plan.driveMin).toBeGreaterThanOrEqual(Math.round(instance.optimum * 10));
  });

  test.each(WINDOW_INSTANCES.filter(({ count }) => count === 25))(
    "$name is solved to its optimum",
    (instance) => {
      const planned = planRounds(windowProblem(instance), { iterations: 20_000, seed: 2 });
      expect(planned.ok && Math.round(planned.plan.driveMin) / 10).toBe(instance.optimum);
    },
  );
});
