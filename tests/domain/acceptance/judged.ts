// Answers and facts for tests of verdicts: one job at an invented site.
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { judge } from "../../../src/domain/acceptance/judge.ts";
import type { Verdict } from "../../../src/domain/acceptance/verdict.ts";
import type { CompiledPlan } from "../../../src/domain/plan/compile.ts";
import type { InstrumentFacts, JobContext, UnitFacts } from "../../../src/domain/plan/context.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";

export const PERSON = "person-1";

export const METER: InstrumentFacts = {
  id: "meter",
  reference: "M-01",
  class: "multimeter",
  accuracy: { percentOfReading: 0.5, digits: 2 },
  resolution: { step: 0.1, unit: "V" },
  range: { max: 1000, unit: "V" },
  calibrations: [{ on: "2026-02-02", due: "2027-02-02", passed: true }],
};

export const WRENCH: InstrumentFacts = {
  id: "wrench",
  reference: "W-01",
  class: "torque-wrench",
  accuracy: { percentOfSetting: 4 },
  calibrations: [{ on: "2026-02-02", due: "2027-02-02", passed: true }],
};

export const pack = (n: number, more: Partial<UnitFacts> = {}): UnitFacts => ({
  id: `pack-${n}`,
  serial: `KH0000${n}`,
  kind: "battery-pack",
  modelCode: "KESTREL-5",
  position: n,
  attributes: { cells: 16, nominalVoltageV: 51.2, connector: "M8", hasHeater: false },
  ...more,
});

export const contextOf = (more: Partial<JobContext> = {}): JobContext => ({
  site: { supply: "TT", region: "uk", country: "GB", timeZone: "Europe/London" },
  units: [pack(1), pack(2)],
  instruments: [METER, WRENCH],
  concessions: [],
  now: "2026-11-25T17:00:00Z",
  ...more,
});

/** An answer at a minute of the morning, received in that order. */
export function answerAt(
  minute: number,
  itemId: string,
  value: unknown,
  more: Partial<Answer> = {},
): Answer {
  return {
    id: `answer-${itemId}-${more.subject ?? ""}-${minute}`,
    itemId,
    subject: "",
    takenAt: `2026-11-25T09:${String(minute).padStart(2, "0")}:00Z`,
    personId: PERSON,
    order: minute,
    value,
    ...more,
  };
}

/** The verdict on the item of a plan, as things stand. */
export const verdictIn = (
  plan: CompiledPlan,
  itemId: string,
  answers: readonly Answer[],
  context: JobContext = contextOf(),
  subject = "",
): Verdict => judge(plan, itemId, subject, answers, context);

/** The verdict on one answer to an item by itself. */
export function verdictOn(
  item: Draft,
  value: unknown,
  more: { answer?: Partial<Answer>; context?: Partial<JobContext>; plan?: Draft } = {},
): Verdict {
  const plan = planOf([{ id: "item", ...item }], more.plan);
  const answer = answerAt(1, "item", value, more.answer);
  return verdictIn(plan, "item", [answer], contextOf(more.context), answer.subject);
}
