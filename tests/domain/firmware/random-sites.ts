import type {
  OrderModel,
  OrderRelease,
  OrderUnit,
} from "../../../src/domain/firmware/order-request.ts";
import type { Chance } from "../../support/chance.ts";

export interface Site {
  models: OrderModel[];
  units: OrderUnit[];
}

const level = (index: number): string => `1.${index}.0`;

/** A small site: up to four units of up to three models, with rules of every kind. */
export function randomSite(chance: Chance): Site {
  const modelCount = chance.between(1, 3);
  const levels = chance.between(2, 5);
  const density = chance.share() * 0.7;
  const models = Array.from({ length: modelCount }, (_, model): OrderModel => {
    const releases = Array.from({ length: levels }, (_, index) =>
      randomRelease(chance, index, levels, modelCount, density),
    );
    return { code: `M${model}`, scheme: "semver", releases };
  });
  const units = Array.from({ length: chance.between(1, 4) }, (_, unit): OrderUnit => {
    const start = chance.between(0, levels - 1);
    const target = chance.between(Math.max(0, start - 1), levels - 1);
    return {
      id: `u${unit}`,
      label: `Unit ${unit}`,
      modelCode: `M${chance.between(0, modelCount - 1)}`,
      level: level(start),
      ...(chance.share() < 0.85 ? { targetLevel: level(Math.max(target, levels - 2)) } : {}),
    };
  });
  return { models, units };
}

function randomRelease(
  chance: Chance,
  index: number,
  levels: number,
  modelCount: number,
  density: number,
): OrderRelease {
  const range = () => ({
    ...(chance.share() < 0.7 ? { min: level(chance.between(0, levels - 1)) } : {}),
    ...(chance.share() < 0.5 ? { below: level(chance.between(1, levels)) } : {}),
  });
  const needs = Array.from({ length: modelCount }, (_, other) => `M${other}`)
    .filter(() => chance.share() < density)
    .map((modelCode) => ({ modelCode, range: range() }));
  return {
    level: level(index),
    ...(chance.share() < 0.3 ? { from: range() } : {}),
    ...(chance.share() < 0.05 ? { withdrawn: true } : {}),
    needs,
  };
}
