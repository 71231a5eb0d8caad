// Properties of the comparison of plans over random plans and limits.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { accepts, type Interval } from "../../../src/domain/acceptance/interval.ts";
import { intervalOf } from "../../../src/domain/acceptance/limits.ts";
import { compilePlan } from "../../../src/domain/plan/compile.ts";
import { diffPlans } from "../../../src/domain/plan/diff.ts";
import { movedMembers } from "../../../src/domain/plan/diff-order.ts";
import type { Plan } from "../../../src/domain/plan/schema.ts";
import { checked, stagedPlan, VOLTAGE } from "./diff-pairs.ts";
import { CONFIRM, type Draft, draftItem, draftPlan } from "./small-plan.ts";

const RUNS = { numRuns: 1000 };

const STAGES = ["s0", "s1", "s2", "s3"];
/** Items dealt to stages in an order, so that any two plans share some of both. */
const plan = fc
  .tuple(
    fc.shuffledSubarray(STAGES, { minLength: 1 }),
    fc.shuffledSubarray(["i0", "i1", "i2", "i3", "i4", "i5", "i6", "i7"], { minLength: 1 }),
    fc.array(fc.nat(3), { minLength: 8, maxLength: 8 }),
  )
  .map(([stages, items, places]) => {
    const dealt = Object.fromEntries(stages.map((id) => [id, [] as string[]]));
    for (const [index, item] of items.entries()) {
      dealt[stages[(places[index] ?? 0) % stages.length] ?? ""]?.push(item);
    }
    return stagedPlan(
      Object.fromEntries(Object.entries(dealt).filter(([, inside]) => inside.length > 0)),
    );
  });

const idsOf = (given: Plan): string[] =>
  given.stages.flatMap(({ items }) => items.map(({ id }) => id));

/** Quarters, so that limits meet often and exactly. */
const quarter = fc.integer({ min: -40, max: 40 }).map((number) => number / 4);
const range = fc
  .record({
    low: fc.option(quarter),
    high: fc.option(quarter),
    lowOpen: fc.boolean(),
    highOpen: fc.boolean(),
  })
  .map(({ low, high, lowOpen, highOpen }) => ({
    ...(low === null ? {} : { [lowOpen ? "above" : "min"]: low }),
    ...(high === null ? {} : { [highOpen ? "below" : "max"]: high }),
  }))
  .filter((limit) => Object.keys(limit).length > 0);
const nominal = fc
  .record({ nominal: quarter, width: fc.nat(20), isPercent: fc.boolean() })
  .map(({ nominal: value, width, isPercent }) => ({
    nominal: value,
    tolerance: isPercent ? { percent: width * 5 } : { absolute: width / 4 },
  }));
const limit = fc.oneof(range, nominal);

const planWith = (given: Draft): Plan | undefined => {
  try {
    return checked(draftPlan([CONFIRM, { ...VOLTAGE, limit: given }].map(draftItem)));
  } catch {
    return undefined;
  }
};

function intervalIn(given: Plan): Interval {
  const compiled = compilePlan(given).byId.get("volts")?.limit;
  if (compiled?.kind !== "range" && compiled?.kind !== "nominal") throw new Error("no interval");
  const bounds = intervalOf(compiled, () => ({}));
  if (!bounds.ok) throw new Error(bounds.problem);
  return bounds.interval;
}

/** Every end of both limits, a place between each two of them, and one beyond. */
function probesOf(...intervals: Interval[]): number[] {
  const ends = intervals.flatMap(({ low = 0, high = 0 }) => [low, high]).sort((a, b) => a - b);
  const between = ends.slice(1).map((end, index) => (end + (ends[index] ?? end)) / 2);
  return [...ends, ...between, (ends[0] ?? 0) - 1, (ends.at(-1) ?? 0) + 1];
}

describe("over random plans", () => {
  test("a plan does not differ from itself", () => {
    fc.assert(
      fc.property(plan, (given) => {
        expect(diffPlans(given, structuredClone(given)).changes).toEqual([]);
      }),
      RUNS,
    );
  });

  test("what was added and removed leads from the items of one to those of the other", () => {
    fc.assert(
      fc.property(plan, plan, (before, after) => {
        const { changes } = diffPlans(before, after);
        const of = (kind: string) =>
          changes.flatMap((one) => (one.kind === kind && one.itemId ? [one.itemId] : []));
        const left = new Set(idsOf(before).filter((id) => !of("removed").includes(id)));
        for (const id of of("added")) {
          expect(left.has(id)).toBe(false);
          left.add(id);
        }
        expect([...left].sort()).toEqual(idsOf(after).sort());
      }),
      RUNS,
    );
  });

  test("there is no change exactly where the documents are the same", () => {
    fc.assert(
      fc.property(plan, plan, (before, after) => {
        const isSame = JSON.stringify(before) === JSON.stringify(after);
        expect(diffPlans(before, after).changes.length === 0).toBe(isSame);
      }),
      RUNS,
    );
  });

  test("back again, what was added is removed and what was stricter is looser", () => {
    fc.assert(
      fc.property(plan, plan, (before, after) => {
        const [there, back] = [diffPlans(before, after), diffPlans(after, before)];
        const of = (changes: typeof there.changes, kind: string) =>
          changes.filter((one) => one.kind === kind && one.of === "item").length;
        expect(of(back.changes, "removed")).toBe(of(there.changes, "added"));
        expect(of(back.changes, "added")).toBe(of(there.changes, "removed"));
        const weighed = (changes: typeof there.changes, weight: string) =>
          changes.filter((one) => one.weight === weight).length;
        expect(weighed(back.changes, "looser")).toBe(weighed(there.changes, "stricter"));
        expect(weighed(back.changes, "stricter")).toBe(weighed(there.changes, "looser"));
      }),
      RUNS,
    );
  });

  test("members that are not called moved stand in the same order in both rows", () => {
    const row = fc.shuffledSubarray(["a", "b", "c", "d", "e", "f", "g"]);
    fc.assert(
      fc.property(row, row, (before, after) => {
        const moved = movedMembers(before, after);
        const kept = (ids: string[], others: string[]) =>
          ids.filter((id) => others.includes(id) && !moved.has(id));
        expect(kept(before, after)).toEqual(kept(after, before));
      }),
      RUNS,
    );
  });
});

describe("over random limits", () => {
  test("a limit is called stricter or looser only where it accepts less or more", () => {
    const seen: Record<string, number> = {};
    fc.assert(
      fc.property(limit, limit, (before, after) => {
        const [old, now] = [planWith(before), planWith(after)];
        if (!old || !now) return;
        const [was, is] = [intervalIn(old), intervalIn(now)];
        const probes = probesOf(was, is);
        const loses = probes.some((probe) => accepts(was, probe) && !accepts(is, probe));
        const gains = probes.some((probe) => accepts(is, probe) && !accepts(was, probe));
        const [change] = diffPlans(old, now).changes;
        const weight = change?.weight ?? "none";
        seen[weight] = (seen[weight] ?? 0) + 1;
        if (weight === "stricter") expect([loses, gains]).toEqual([true, false]);
        if (weight === "looser") expect([loses, gains]).toEqual([false, true]);
        if (weight === "wording" || weight === "none")
          expect([loses, gains]).toEqual([false, false]);
        if (loses !== gains) expect(weight).toBe(loses ? "stricter" : "looser");
      }),
      { numRuns: 3000 },
    );
    for (const weight of ["stricter", "looser", "different"]) {
      expect(seen[weight], weight).toBeGreaterThan(50);
    }
  });

  test("a limit that was tightened at either end is never called looser", () => {
    const step = fc.integer({ min: 0, max: 20 }).map((number) => number / 4);
    fc.assert(
      fc.property(quarter, fc.integer({ min: 1, max: 40 }), step, step, (low, width, up, down) => {
        const high = low + width;
        const old = planWith({ min: low, max: high });
        const now = planWith({ min: low + up, max: high - down });
        if (!old || !now) return;
        const weights = diffPlans(old, now).changes.map(({ weight }) => weight);
        expect(weights).toEqual(up + down === 0 ? [] : ["stricter"]);
      }),
      RUNS,
    );
  });
});
