// Against plain breadth-first search (the definition itself) on random walks of up to seven units,
// of which some are alike.
import { describe, expect, test } from "vitest";
import { searchLevels } from "../../../src/domain/firmware/level-search.ts";
import { type LevelWalk, tablesOf } from "../../../src/domain/firmware/level-tables.ts";
import { walkLevels } from "../../../src/domain/firmware/level-walk.ts";
import { type Chance, chanceOf } from "../../support/chance.ts";

const WALKS = 1500;
const LIMITS = { mostSeen: 100_000 };

interface Kind {
  start: number;
  goal: number;
  steps: number[][];
}

function randomWalk(chance: Chance): LevelWalk {
  const levels = chance.between(3, 4);
  const kinds = Array.from({ length: chance.between(2, 6) }, (): Kind => {
    const higher = (from: number) => [...Array(levels).keys()].filter((to) => to > from);
    const steps = Array.from({ length: levels }, (_, from) =>
      higher(from).filter((to) => to === from + 1 || chance.share() < 0.5),
    );
    return { start: 0, goal: levels - 1, steps };
  });
  const density = 0.05 + chance.share() * 0.35;
  const size = kinds.length * levels;
  const bad = Array.from({ length: size * size }, () => chance.share() < density);
  const units = Array.from({ length: chance.between(4, 7) }, () =>
    chance.between(0, kinds.length - 1),
  );
  const place = (unit: number, level: number) => units[unit]! * levels + level;
  return {
    starts: units.map((kind) => kinds[kind]!.start),
    goals: units.map((kind) => kinds[kind]!.goal),
    steps: units.map((kind) => kinds[kind]!.steps),
    clash: (a, levelA, b, levelB) => {
      if (levelA === levels - 1 && levelB === levels - 1) return false;
      const [low = 0, high = 0] = [place(a, levelA), place(b, levelB)].sort((x, y) => x - y);
      return bad[low * size + high] === true;
    },
  };
}

/** By level of every unit: where one step leads. */
function stepsFrom(walk: LevelWalk, levels: readonly number[]): number[][] {
  return levels.flatMap((from, unit) =>
    walk.steps[unit]![from]!.filter((to) =>
      levels.every((level, other) => other === unit || !walk.clash(unit, to, other, level)),
    ).map((to) => levels.map((level, other) => (other === unit ? to : level))),
  );
}

function fewestSteps(walk: LevelWalk): number | undefined {
  let front = [[...walk.starts]];
  const seen = new Set([String(walk.starts)]);
  for (let steps = 0; front.length > 0; steps += 1) {
    if (front.some((levels) => String(levels) === String(walk.goals))) return steps;
    const next = new Map(
      front.flatMap((levels) => stepsFrom(walk, levels)).map((levels) => [String(levels), levels]),
    );
    front = [...next].filter(([key]) => !seen.has(key)).map(([, levels]) => levels);
    for (const levels of front) seen.add(String(levels));
  }
  return undefined;
}

describe("walks against breadth-first search", () => {
  const walks = Array.from({ length: WALKS }, (_, seed) => randomWalk(chanceOf(70_000 + seed)));
  const results = walks.map((walk) => walkLevels(walk, LIMITS));

  const fewest = walks.map((walk) => fewestSteps(walk) ?? "none");

  test(`${WALKS} random walks have as many steps, or none alike`, () => {
    const ours = results.map((one) => (one.found === "path" ? one.steps.length : one.found));
    expect(ours).toEqual(fewest);
    expect(ours.filter((one) => one === "none").length).toBeGreaterThan(WALKS / 20);
  });

  test("the search alone, with nothing ruled out before and poor estimates, agrees", () => {
    const searched = walks.map((walk) => searchLevels(tablesOf(walk), { ...LIMITS, groupMost: 4 }));
    const ours = searched.map((one) => (one.found === "path" ? one.steps.length : one.found));
    expect(ours).toEqual(fewest);
    const turnedBack = searched.filter(({ steps, seen }) => seen > steps.length + 1);
    expect(turnedBack.length).toBeGreaterThan(WALKS / 20);
  });

  test.each([
    ["the fewest steps", {}],
    ["any path", { anyPath: true }],
  ])("asked for %s, every step is allowed and the last reaches the goals", (_, options) => {
    for (const [seed, walk] of walks.entries()) {
      const result = walkLevels(walk, { ...LIMITS, ...options });
      expect(result.found).toBe(results[seed]!.found);
      if (result.found !== "path") continue;
      let levels = [...walk.starts];
      for (const { unit, from, to } of result.steps) {
        expect(levels[unit]).toBe(from);
        const after = levels.map((level, other) => (other === unit ? to : level));
        expect(stepsFrom(walk, levels)).toContainEqual(after);
        levels = after;
      }
      expect(levels).toEqual(walk.goals);
    }
  });
});

const ladder = [[1], [2], []];
const pair = (clash: LevelWalk["clash"]): LevelWalk => ({
  starts: [0, 0],
  goals: [2, 2],
  steps: [ladder, ladder],
  clash,
});

test("a clash from the start is borne until one of the two moves", () => {
  const apart = pair((_a, levelA, _b, levelB) => levelA === 0 && levelB === 0);
  expect(walkLevels(apart, LIMITS)).toMatchObject({ found: "path" });
  const both = pair((_a, levelA, _b, levelB) => levelA + levelB < 2);
  expect(walkLevels(both, LIMITS)).toMatchObject({ found: "none", stuck: [0, 1] });
});

test("units at their goals need no step", () => {
  const done = { ...pair(() => true), starts: [2, 2] };
  expect(walkLevels(done, LIMITS)).toMatchObject({ found: "path", steps: [] });
});

test("a search that may look at too little says that it is undecided, and never guesses", () => {
  const far = { ...pair(() => false), starts: [0, 0] };
  expect(searchLevels(tablesOf(far), { mostSeen: 2 })).toMatchObject({ found: "undecided" });
  expect(searchLevels(tablesOf(far), { mostSeen: 4 })).toMatchObject({ found: "path" });
});
