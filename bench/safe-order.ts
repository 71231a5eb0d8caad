// The order of firmware updates at a site of ten units with six levels each: random companion
// ranges and stepping stones over two to ten models, from sparse to dense. Prints processor time
// and answers.
import type { OrderModel, OrderUnit } from "../src/domain/firmware/order-request.ts";
import { type SafeOrder, safeOrder } from "../src/domain/firmware/safe-order.ts";

const SITES = Number(process.argv[2] ?? 300);
/** The best of so many, in processor time: other work on the machine is not ours. */
const TURNS = 3;
const UNITS = 10;
const LEVELS = 6;

/** mulberry32: the same sites in every run. */
function chanceFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const processorMs = (): number => process.cpuUsage().user / 1000;

const level = (index: number): string => `${index + 1}.0.0`;

interface Site {
  models: OrderModel[];
  units: OrderUnit[];
}

/**
 * Companions ask for a window of levels around the release's own age, as makers release families
 * together; `density` is the share of releases with a companion on another given model.
 */
function siteOf(
  seed: number,
  modelCount: number,
  density: number,
  window: number,
  unitCount: number,
): Site {
  const chance = chanceFrom(seed);
  const below = (limit: number): number => Math.floor(chance() * limit);
  const models = Array.from({ length: modelCount }, (_, model): OrderModel => {
    const releases = Array.from({ length: LEVELS }, (_, index) => ({
      level: level(index),
      ...(index > 1 && chance() < 0.4 ? { from: { min: level(index - 1 - below(2)) } } : {}),
      needs: Array.from({ length: modelCount }, (_, other) => other)
        .filter((other) => other !== model && chance() < density)
        .map((other) => ({
          modelCode: `M${other}`,
          range: {
            ...(chance() < 0.8 ? { min: level(Math.max(0, index - below(window + 1))) } : {}),
            ...(chance() < 0.5 ? { below: level(index + 1 + below(window + 1)) } : {}),
          },
        })),
    }));
    return { code: `M${model}`, scheme: "semver", releases };
  });
  const startOf = models.map(() => below(2));
  const units = Array.from({ length: unitCount }, (_, unit): OrderUnit => {
    const model = unit < modelCount ? unit : below(modelCount);
    return {
      id: `u${unit}`,
      label: `Unit ${unit + 1}`,
      modelCode: `M${model}`,
      level: level(chance() < 0.8 ? (startOf[model] ?? 0) : below(2)),
      targetLevel: level(chance() < 0.9 ? LEVELS - 1 : LEVELS - 2),
    };
  });
  return { models, units };
}

interface Row {
  ms: number;
  state: string;
  steps: number;
}

function measure(sites: readonly Site[]): Row[] {
  return sites.map(({ models, units }) => {
    let ms = Number.POSITIVE_INFINITY;
    let order: SafeOrder = { state: "unclear", sentence: "" };
    for (let turn = 0; turn < TURNS; turn += 1) {
      const began = processorMs();
      order = safeOrder(models, units);
      ms = Math.min(ms, processorMs() - began);
    }
    return { ms, state: order.state, steps: order.state === "in-order" ? order.steps.length : 0 };
  });
}

const at = (sorted: readonly number[], share: number): string =>
  (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? 0).toFixed(1);

function print(name: string, rows: readonly Row[]): void {
  const sorted = rows.map(({ ms }) => ms).sort((a, b) => a - b);
  const count = (state: string): number => rows.filter((row) => row.state === state).length;
  const longest = Math.max(...rows.map(({ steps }) => steps));
  const over = sorted.filter((ms) => ms > 50).length;
  console.log(
    `${name.padEnd(34)} p50 ${at(sorted, 0.5)}  p90 ${at(sorted, 0.9)}  p99 ${at(sorted, 0.99)}` +
      `  max ${at(sorted, 1)} ms  over 50 ms: ${over}/${rows.length}` +
      `  (${count("in-order")} in order, up to ${longest} steps;` +
      ` ${count("no-order")} none; ${count("unclear")} unclear)`,
  );
}

const sitesOf = (density: number, window: number, units: number): Site[] =>
  Array.from({ length: SITES }, (_, index) =>
    siteOf(1000 + index, 2 + (index % 9), density, window, units),
  );

const all: Row[] = [];
for (let seed = 0; seed < 40; seed += 1) {
  const { models, units } = siteOf(seed, 2 + (seed % 9), 0.3, 2, UNITS);
  safeOrder(models, units);
}
for (const density of [0.1, 0.25, 0.5]) {
  for (const window of [1, 3]) {
    const sites = sitesOf(density, window, UNITS);
    const rows = measure(sites);
    all.push(...rows);
    print(`companions ${density * 100} %, window ${window}`, rows);
  }
}
print("all", all);
console.log("beyond the usual: windows over all levels, and 16 units");
print("companions 10 %, window 6", measure(sitesOf(0.1, 6, UNITS)));
print("companions 25 %, window 6", measure(sitesOf(0.25, 6, UNITS)));
print("16 units, 10 %, window 3", measure(sitesOf(0.1, 3, 16)));
print("16 units, 25 %, window 6", measure(sitesOf(0.25, 6, 16)));
