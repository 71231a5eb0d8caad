import semver from "semver";
import type {
  Companion,
  OrderModel,
  OrderRelease,
  OrderUnit,
} from "../../../src/domain/firmware/order-request.ts";

/**
 * The fewest updates by plain breadth-first search over the levels of all units, straight from the
 * words of the rule and with the package semver for every order; undefined where there are none.
 */
export function bruteForceOrder(
  models: readonly OrderModel[],
  units: readonly OrderUnit[],
): number | undefined {
  const wanted = units.map((unit) => unit.targetLevel ?? unit.level).join(" ");
  let front = [units.map(({ level }) => level)];
  const seen = new Set(front.map((levels) => levels.join(" ")));
  for (let steps = 0; front.length > 0; steps += 1) {
    if (front.some((levels) => levels.join(" ") === wanted)) return steps;
    const next: string[][] = [];
    for (const levels of front) {
      for (const after of updatesFrom(models, units, levels)) {
        const key = after.join(" ");
        if (seen.has(key)) continue;
        seen.add(key);
        next.push(after);
      }
    }
    front = next;
  }
  return undefined;
}

/** Every combination that one allowed update leads to. */
export function updatesFrom(
  models: readonly OrderModel[],
  units: readonly OrderUnit[],
  levels: readonly string[],
): string[][] {
  return units.flatMap((unit, index) => {
    const from = levels[index]!;
    return releasesOf(models, unit)
      .filter((release) => !release.withdrawn && semver.gt(release.level, from))
      .filter((release) => !release.from || inside(from, release.from))
      .map(({ level }) => levels.map((old, other) => (other === index ? level : old)))
      .filter((after) =>
        units.every((_, other) => standTogether(models, units, after, index, other)),
      );
  });
}

function standTogether(
  models: readonly OrderModel[],
  units: readonly OrderUnit[],
  levels: readonly string[],
  a: number,
  b: number,
): boolean {
  if (a === b) return true;
  return [[a, b] as const, [b, a] as const].every(([one, other]) => {
    const release = releasesOf(models, units[one]!).find(({ level }) => level === levels[one]);
    const needs = (release?.needs ?? []).filter(
      ({ modelCode }) => modelCode === units[other]!.modelCode,
    );
    return needs.every(({ range }) => inside(levels[other]!, range));
  });
}

function releasesOf(models: readonly OrderModel[], unit: OrderUnit): readonly OrderRelease[] {
  return models.find(({ code }) => code === unit.modelCode)!.releases;
}

function inside(level: string, { min, below }: Companion["range"]): boolean {
  return (min === undefined || semver.gte(level, min)) && (!below || semver.lt(level, below));
}
