// When a passing answer that comes in late, but was taken earlier, closes an open gate: each case
// in which what was known at the time of a later answer turns out to have been otherwise.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { verdictForAnswer } from "../../../src/domain/acceptance/judge.ts";
import { closeOut } from "../../../src/domain/closeout/gate.ts";
import { answerAt, contextOf } from "../acceptance/judged.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";

const done = { done: true };
const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });
const off = item("off", { breakers: { leaves: { main: "open" } } });
const on = item("on", { breakers: { leaves: { main: "closed" } } });

describe("a passing answer taken in between, that comes in late", () => {
  test.each<[string, Draft[], Answer[], Answer, string]>([
    [
      "moves a breaker",
      [off, on, item("x", { breakers: { with: { main: "open" } } })],
      [answerAt(1, "on", done), answerAt(2, "off", done), answerAt(5, "x", done)],
      answerAt(3, "on", done),
      "breaker-state",
    ],
    [
      "begins a wait anew",
      [item("a"), item("x", { dwell: { after: "a", atLeastS: 120 } })],
      [answerAt(1, "a", done), answerAt(5, "x", done)],
      answerAt(4, "a", done),
      "too-soon",
    ],
    [
      "changes nothing where a later one counts",
      [item("a"), item("x", { dwell: { after: "a", atLeastS: 0, atMostS: 240 } })],
      [answerAt(1, "a", done), answerAt(5, "x", done)],
      answerAt(0, "a", done),
      "",
    ],
  ])("%s", (_what, items, answers, late, code) => {
    const plan = planOf(items);
    expect(closeOut(plan, answers, contextOf()).open).toBe(true);
    expect(verdictForAnswer(plan, late, answers, contextOf())?.clears).toBe(true);
    const { blockers } = closeOut(plan, [...answers, late], contextOf());
    expect(blockers.map((blocker) => blocker.code)).toEqual(code === "" ? [] : [code]);
  });
});
