// The gate over a plan of 150 items with one answer each, beside the same limits as plain
// comparisons.
import type { Answer } from "../src/domain/acceptance/answer.ts";
import { closeOut } from "../src/domain/closeout/gate.ts";
import { checkPlan } from "../src/domain/plan/check.ts";
import { compilePlan } from "../src/domain/plan/compile.ts";
import type { JobContext } from "../src/domain/plan/context.ts";
import { median } from "./measure.ts";

const ITEMS = 150;
const ROUNDS = 15;
const RUNS = 400;

const METER = "01900000-0000-7000-8000-0000000000b1";
const context: JobContext = {
  site: { supply: "TT", region: "uk", country: "GB", timeZone: "Europe/London" },
  units: [],
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
};

function plan() {
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

const answersOfJob = (): Answer[] =>
  Array.from({ length: ITEMS }, (_, index) => ({
    id: `01900000-0000-7000-8000-${String(index).padStart(12, "0")}`,
    itemId: `item_${index}`,
    subject: "",
    takenAt: `2026-11-25T${String(9 + Math.floor(index / 60)).padStart(2, "0")}:${String(index % 60).padStart(2, "0")}:00+00:00`,
    personId: METER,
    instrumentId: METER,
    order: index + 1,
    value: { number: 20 + (index % 30), unit: "V" },
  }));

export interface GateFigures {
  gateUs: number;
  comparisonsUs: number;
}

export function benchGate(): GateFigures {
  const compiled = plan();
  const answers = answersOfJob();
  const limits = new Map(
    answers.map((answer, index) => [answer.itemId, { min: 10 + (index % 7), max: 60 }]),
  );
  const byHand = (): boolean =>
    answers.every((answer) => {
      const limit = limits.get(answer.itemId);
      const { number } = answer.value as { number: number };
      return limit !== undefined && number >= limit.min && number <= limit.max;
    });
  const gate = (): boolean => closeOut(compiled, answers, context).open;
  if (!gate() || !byHand()) throw new Error("the bench job should pass");
  const gateUs: number[] = [];
  const comparisonsUs: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    gateUs.push(timeUs(gate));
    comparisonsUs.push(timeUs(byHand));
  }
  return { gateUs: median(gateUs), comparisonsUs: median(comparisonsUs) };
}

function timeUs(work: () => boolean): number {
  const started = performance.now();
  let open = 0;
  for (let run = 0; run < RUNS; run += 1) open += work() ? 1 : 0;
  const elapsed = performance.now() - started;
  if (open !== RUNS) throw new Error("a run came out otherwise");
  return (elapsed * 1000) / RUNS;
}
