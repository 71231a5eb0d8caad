// Against plain breadth-first search (the definition itself) on random small sites; orders of
// levels by the package semver.
import { expect, test } from "vitest";
import type { NoOrder, OrderCause } from "../../../src/domain/firmware/order-reason.ts";
import type { OrderModel, OrderUnit } from "../../../src/domain/firmware/order-request.ts";
import { type SafeOrder, safeOrder } from "../../../src/domain/firmware/safe-order.ts";
import { chanceOf } from "../../support/chance.ts";
import { bruteForceOrder, updatesFrom } from "./brute-force-order.ts";
import { randomSite, type Site } from "./random-sites.ts";

const SITES = 10_000;

const sites = Array.from({ length: SITES }, (_, seed) => randomSite(chanceOf(seed)));
const answers = sites.map((site): [Site, SafeOrder] => [site, safeOrder(site.models, site.units)]);

test(`${SITES} random sites have as many steps as breadth-first search finds, or none`, () => {
  const differing = answers.flatMap(([{ models, units }, order], seed) => {
    const fewest = bruteForceOrder(models, units);
    const ours = order.state === "in-order" ? order.steps.length : order.state;
    return ours === (fewest ?? "no-order") ? [] : [{ seed, ours, fewest }];
  });
  expect(differing).toEqual([]);
  const count = (state: string): number => answers.filter(([, one]) => one.state === state).length;
  expect(count("in-order")).toBeGreaterThan(SITES / 10);
  expect(count("no-order")).toBeGreaterThan(SITES / 10);
});

test("every step of every order is an allowed update, and the last reaches all targets", () => {
  for (const [{ models, units }, order] of answers) {
    if (order.state !== "in-order") continue;
    let levels = units.map(({ level }) => level);
    for (const { unitId, from, to } of order.steps) {
      const index = units.findIndex(({ id }) => id === unitId);
      expect(levels[index]).toBe(from);
      const after = levels.map((old, other) => (other === index ? to : old));
      expect(updatesFrom(models, units, levels)).toContainEqual(after);
      levels = after;
    }
    expect(levels).toEqual(units.map(({ level, targetLevel }) => targetLevel ?? level));
  }
});

test("of a reason no unit and no rule can be left out", () => {
  for (const [{ models, units }, order] of answers) {
    if (order.state !== "no-order") continue;
    const group = units.filter(({ id }) => order.unitIds.includes(id));
    const left = onlyRules(models, order.because);
    expect(order.smallest).toBe(true);
    expect(bruteForceOrder(left, group)).toBeUndefined();
    for (const unit of group) {
      expect(bruteForceOrder(left, without(group, unit))).toBeDefined();
    }
    for (const cause of order.because) {
      expect(
        bruteForceOrder(onlyRules(models, without(order.because, cause)), group),
      ).toBeDefined();
    }
  }
});

test("every reason names its units and its rules in its sentence", () => {
  const reasons = answers.flatMap(([{ units }, order]): [OrderUnit[], NoOrder][] =>
    order.state === "no-order" ? [[units, order]] : [],
  );
  for (const [units, { unitIds, because, sentence }] of reasons) {
    for (const { id, label } of units) expect(sentence.includes(label)).toBe(unitIds.includes(id));
    for (const { words } of because) expect(sentence).toContain(words);
  }
});

function without<T>(all: readonly T[], one: T): T[] {
  return all.filter((other) => other !== one);
}

function onlyRules(models: readonly OrderModel[], causes: readonly OrderCause[]): OrderModel[] {
  return models.map((model) => ({
    ...model,
    releases: model.releases.map((release) => {
      const own = causes.filter(
        (cause) => cause.modelCode === model.code && cause.level === release.level,
      );
      const kinds = own.map(({ kind }) => kind);
      return {
        level: release.level,
        ...(kinds.includes("from") ? { from: release.from } : {}),
        ...(kinds.includes("withdrawn") ? { withdrawn: true } : {}),
        needs: (release.needs ?? []).filter(({ modelCode }) =>
          own.some((cause) => cause.kind === "needs" && cause.otherCode === modelCode),
        ),
      };
    }),
  }));
}
