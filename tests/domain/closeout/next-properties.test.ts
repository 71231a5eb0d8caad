// Whoever does what comes next, and does it well, gets the job closed: over random plans and
// whatever has been answered before.
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { verdictForAnswer } from "../../../src/domain/acceptance/judge.ts";
import { closeOut } from "../../../src/domain/closeout/gate.ts";
import { nextOf } from "../../../src/domain/closeout/next.ts";
import type { CompiledPlan } from "../../../src/domain/plan/compile.ts";
import type { JobContext } from "../../../src/domain/plan/context.ts";
import { planOf } from "../plan/small-plan.ts";
import { type DraftJob, job, keysOf } from "./random-job.ts";
import { answerOf, answersOf, contextFor, itemsOf } from "./sent-job.ts";

const RUNS = { numRuns: 1500 };
const STEPS_MOST = 60;

interface Walk {
  plan: CompiledPlan;
  context: JobContext;
  answers: Answer[];
  steps: number;
}

/** Does what comes next until nothing does, waiting only when there is nothing else. */
function walk(drafts: DraftJob, seen: (walk: Walk, answer: Answer) => void): Walk {
  const state: Walk = {
    plan: planOf(itemsOf(drafts)),
    context: { ...contextFor(drafts), now: "2026-11-25T09:30:00Z" },
    answers: answersOf(drafts),
    steps: 0,
  };
  for (; state.steps < STEPS_MOST; state.steps += 1) {
    const { next, waitsUntil } = nextOf(state.plan, state.answers, state.context);
    if (next) {
      const answer = goodAnswer(drafts, next, state);
      seen(state, answer);
      state.answers.push(answer);
    } else if (waitsUntil !== undefined) state.context = { ...state.context, now: waitsUntil };
    else return state;
  }
  return state;
}

function goodAnswer(
  drafts: DraftJob,
  { itemId, subject }: { itemId: string; subject: string },
  { context, answers }: Walk,
): Answer {
  const item = drafts.items.findIndex(({ id }) => id === itemId);
  const keys = keysOf(drafts, drafts.items[item]!);
  const draft = {
    ...{ item, subject: keys.indexOf(subject), good: true, minute: 0 },
    ...{ instrument: "fit" as const, hasPhoto: true, person: "person-1" as const },
  };
  return { ...answerOf(drafts, draft, answers.length), takenAt: context.now };
}

/**
 * Photos are there, nothing is conceded, no item wants units of which there are none, and what
 * moves the breaker applies.
 */
const feasible = (drafts: DraftJob): DraftJob => ({
  ...drafts,
  items: drafts.items.map((item) =>
    item.leaves === "as it was" ? item : { ...item, condition: "none" },
  ),
  packs: Math.max(drafts.packs, 1),
  photosArrived: true,
  concessions: [],
});

test("what comes next is in its place and clears, step by step", () => {
  let taken = 0;
  fc.assert(
    fc.property(job.map(feasible), (drafts) => {
      walk(drafts, ({ plan, context, answers }, answer) => {
        const verdict = verdictForAnswer(plan, answer, answers, context);
        expect(verdict).toMatchObject({ outcome: "pass", clears: true });
        taken += 1;
      });
    }),
    RUNS,
  );
  expect(taken).toBeGreaterThan(1500);
});

test("doing what comes next closes the job, where no wait ends too early", () => {
  fc.assert(
    fc.property(job.map(feasible), (drafts) => {
      const items = drafts.items.map(({ dwell, ...rest }) => ({
        ...rest,
        dwell: dwell && { ...dwell, most: undefined },
      }));
      const { plan, answers, context, steps } = walk({ ...drafts, items }, () => undefined);
      expect(steps).toBeLessThan(STEPS_MOST);
      expect(closeOut(plan, answers, context).blockers).toEqual([]);
    }),
    RUNS,
  );
});

test("a step is met just where the gate says so; others are told why not", () => {
  fc.assert(
    fc.property(job, (drafts) => {
      const plan = planOf(itemsOf(drafts));
      const [answers, context] = [answersOf(drafts), contextFor(drafts)];
      const { steps } = nextOf(plan, answers, context);
      const met = (state: string) => state === "met" || state === "not-applicable";
      const { facts } = closeOut(plan, answers, context);
      const byGate = facts.map((fact) => `${fact.itemId} ${fact.subject} ${fact.clears}`);
      const byStep = steps.map((step) => `${step.itemId} ${step.subject} ${met(step.state)}`);
      expect(byStep.sort()).toEqual(byGate.sort());
      for (const { state, blockedBy, waitsUntil } of steps) {
        expect(blockedBy.length > 0).toBe(state === "blocked" || state === "waits");
        expect(waitsUntil !== undefined).toBe(state === "waits");
      }
    }),
    RUNS,
  );
});
