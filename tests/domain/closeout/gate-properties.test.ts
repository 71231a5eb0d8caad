// Properties of the gate over random plans, jobs and answers.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { verdictForAnswer } from "../../../src/domain/acceptance/judge.ts";
import { closeOut } from "../../../src/domain/closeout/gate.ts";
import { answerAt } from "../acceptance/judged.ts";
import { planOf } from "../plan/small-plan.ts";
import { unmetHoldPoints } from "./oracle.ts";
import { type DraftJob, job } from "./random-job.ts";
import { answerOf, answersOf, contextFor, itemsOf } from "./sent-job.ts";

const RUNS = { numRuns: 1500 };

const gateOf = (drafts: DraftJob) =>
  closeOut(planOf(itemsOf(drafts)), answersOf(drafts), contextFor(drafts));

describe("over random plans and answers", () => {
  test("the gate is open exactly when no hold point is unmet, and blocks what is", () => {
    const seen = { open: 0, blocked: 0 };
    const codes = new Map<string, number>();
    fc.assert(
      fc.property(job, (drafts) => {
        const { open, blockers } = gateOf(drafts);
        for (const { code } of blockers) codes.set(code, (codes.get(code) ?? 0) + 1);
        const unmet = unmetHoldPoints(drafts);
        expect(blockers.map(({ itemId, subject }) => `${itemId} ${subject}`)).toEqual(unmet);
        expect(open).toBe(unmet.length === 0);
        seen[open ? "open" : "blocked"] += 1;
      }),
      RUNS,
    );
    // Both must have been met often for the property to say anything.
    expect(Math.min(seen.open, seen.blocked)).toBeGreaterThan(50);
    for (const code of [
      ...["out-of-sequence", "breaker-state", "too-soon", "too-late", "repeat-after-failure"],
    ]) {
      expect(codes.get(code) ?? 0, code).toBeGreaterThan(3);
    }
  });

  test("the order in which answers are handed in does not matter", () => {
    fc.assert(
      fc.property(job, fc.infiniteStream(fc.nat()), (drafts, keys) => {
        const plan = planOf(itemsOf(drafts));
        const answers = answersOf(drafts);
        const shuffled = answers
          .map((answer) => ({ answer, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ answer }) => answer);
        const context = contextFor(drafts);
        expect(closeOut(plan, shuffled, context)).toEqual(closeOut(plan, answers, context));
      }),
      RUNS,
    );
  });

  test("one more answer that passes, taken last, never closes an open gate", () => {
    // The exception: item_0 decides whether others apply, so an answer to it may ask for more.
    let compared = 0;
    fc.assert(
      fc.property(job, fc.nat(4), fc.nat(1), (drafts, item, subject) => {
        const decides = drafts.items.some(({ condition }) => condition === "first");
        if (item >= drafts.items.length || (item === 0 && decides) || !gateOf(drafts).open) return;
        const more = {
          ...{ item, subject, good: true, minute: 6, instrument: "fit" as const },
          ...{ hasPhoto: true, person: "person-1" as const },
        };
        const plan = planOf(itemsOf(drafts));
        const context = contextFor(drafts);
        const answers = answersOf(drafts);
        const added = answerOf(drafts, more, answers.length);
        const verdict = verdictForAnswer(plan, added, answers, context);
        if (!verdict?.clears) return;
        compared += 1;
        expect(closeOut(plan, [...answers, added], context).open).toBe(true);
      }),
      RUNS,
    );
    expect(compared).toBeGreaterThan(20);
  });

  test("a later answer never changes the verdict on an earlier one", () => {
    fc.assert(
      fc.property(job, (drafts) => {
        const plan = planOf(itemsOf(drafts));
        const context = contextFor(drafts);
        const answers = answersOf(drafts).sort(
          (a, b) => a.takenAt.localeCompare(b.takenAt) || a.order - b.order,
        );
        for (const [index, answer] of answers.entries()) {
          const then = verdictForAnswer(plan, answer, answers.slice(0, index + 1), context);
          expect(verdictForAnswer(plan, answer, answers, context)).toEqual(then);
        }
      }),
      { numRuns: 400 },
    );
  });
});

test("an answer that makes another item apply may close an open gate", () => {
  const plan = planOf([
    { id: "done", kind: "confirm" },
    { id: "has_meter", kind: "confirm", holdPoint: false },
    { id: "meter_wired", kind: "confirm", appliesWhen: "answers.has_meter" },
  ]);
  const no = [answerAt(1, "done", { done: true }), answerAt(2, "has_meter", { done: false })];
  const context = contextFor({
    ...{ items: [], answers: [], packs: 1, supply: "TT", photosArrived: true, concessions: [] },
  });
  expect(closeOut(plan, no, context).open).toBe(true);
  const yes = [...no, answerAt(3, "has_meter", { done: true })];
  expect(closeOut(plan, yes, context).blockers.map(({ itemId }) => itemId)).toEqual([
    "meter_wired",
  ]);
});
