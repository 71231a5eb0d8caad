// The gate over a plan of 150 items, asked once or of every unit, beside the same limits as plain
// comparisons.
import type { Answer } from "../src/domain/acceptance/answer.ts";
import { Judge } from "../src/domain/acceptance/judge.ts";
import { closeOut } from "../src/domain/closeout/gate.ts";
import { checkPlan } from "../src/domain/plan/check.ts";
import { compilePlan } from "../src/domain/plan/compile.ts";
import type { JobContext } from "../src/domain/plan/context.ts";
import { median } from "./measure.ts";

const ITEMS = 150;
const ROUNDS = 15;
const TARGET_MS = 40;

const METER = "01900000-0000-7000-8000-0000000000b1";
const unitId = (index: number): string =>
  `01900000-0000-7000-8000-0000000c${String(index).padStart(4, "0")}`;

const contextOf = (units: number): JobContext => ({
  site: { supply: "TT", region: "uk", country: "GB", timeZone: "Europe/London" },
  units: Array.from({ length: units }, (_, index) => ({
    id: unitId(index),
    serial: `PK${index}`,
    kind: "battery-pack",
    modelCode: "PK",
    position: index + 1,
    attributes: {},
  })),
  instruments: [
    {
      id: METER,
      reference: "M-01",
      class: "multimeter",
      calibrations: [{ on: "2026-01-05", due: "2027-01-05", passed: true }],
    },
  ],
  concessions: [],
  now: "2026-11-25T17:00:00Z",
});

function planOf(units: number) {
  const items = Array.from({ length: ITEMS }, (_, index) => ({
    id: `item_${index}`,
    kind: "measure",
    title: `Item ${index}`,
    do: "Measure",
    holdPoint: true,
    unit: "V",
    limit: { min: 10 + (index % 7), max: 60 },
    instrument: { class: "multimeter" },
    ...(index % 10 === 9 ? { after: [`item_${index - 1}`] } : {}),
    ...(units > 0 ? { repeat: { per: "unit" } } : {}),
  }));
  const checked = checkPlan({
    schema: "plan/1",
    title: "Bench",
    decisionRule: "simple",
    stages: [{ id: "all", title: "All", items }],
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems[0]));
  return compilePlan(checked.plan);
}

/** One answer an item and unit; without units, one an item. */
function answersOfJob(units: number): Answer[] {
  const subjects = units > 0 ? Array.from({ length: units }, (_, unit) => unitId(unit)) : [""];
  return Array.from({ length: ITEMS * subjects.length }, (_, order) => {
    const index = Math.floor(order / subjects.length);
    const second = String(order % 60).padStart(2, "0");
    const minute = String(Math.floor(order / 60) % 60).padStart(2, "0");
    return {
      id: `01900000-0000-7000-8000-${String(order).padStart(12, "0")}`,
      itemId: `item_${index}`,
      subject: subjects[order % subjects.length] ?? "",
      takenAt: `2026-11-25T09:${minute}:${second}+00:00`,
      personId: METER,
      instrumentId: METER,
      order: order + 1,
      value: { number: 20 + (index % 30), unit: "V" },
    };
  });
}

export interface GateFigures {
  answers: number;
  gateUs: number;
  comparisonsUs: number;
  verdictsPerSecond: number;
  comparisonsPerSecond: number;
}

/** The gate over 150 items, each for every one of so many units; 0 for items asked once. */
export function benchGate(units: number): GateFigures {
  const compiled = planOf(units);
  const answers = answersOfJob(units);
  const context = contextOf(units);
  const limits = new Map(
    Array.from({ length: ITEMS }, (_, index) => [
      `item_${index}`,
      { min: 10 + (index % 7), max: 60 },
    ]),
  );
  const byHand = (): boolean =>
    answers.every((answer) => {
      const limit = limits.get(answer.itemId);
      const { number } = answer.value as { number: number };
      return limit !== undefined && number >= limit.min && number <= limit.max;
    });
  const gate = (): boolean => closeOut(compiled, answers, context).open;
  const verdicts = (): boolean => {
    const judge = new Judge(compiled, answers, context);
    return answers.every((answer) => judge.verdictOn(answer)?.clears);
  };
  const figures = [gate, byHand, verdicts].map(() => [] as number[]);
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const [index, work] of [gate, byHand, verdicts].entries()) {
      figures[index]?.push(timeUs(work));
    }
  }
  const [gateUs = 0, comparisonsUs = 0, verdictsUs = 0] = figures.map(median);
  const perSecond = (us: number): number => (answers.length * 1e6) / us;
  return {
    answers: answers.length,
    gateUs,
    comparisonsUs,
    verdictsPerSecond: perSecond(verdictsUs),
    comparisonsPerSecond: perSecond(comparisonsUs),
  };
}

function timeUs(work: () => boolean): number {
  const started = performance.now();
  let runs = 0;
  while (performance.now() - started < TARGET_MS) {
    if (!work()) throw new Error("the bench job should pass");
    runs += 1;
  }
  return ((performance.now() - started) * 1000) / runs;
}
