// What is read for a verdict: only the answers that can bear on it, and all of those.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { verdictForAnswer } from "../../../src/domain/acceptance/judge.ts";
import { bearingOn } from "../../../src/domain/plan/dependencies.ts";
import { answerAt, contextOf } from "../acceptance/judged.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { job } from "./random-job.ts";
import { answersOf, contextFor, itemsOf } from "./sent-job.ts";

test("a verdict from the answers that bear on it is the verdict from all of them", () => {
  let spared = 0;
  fc.assert(
    fc.property(job, (drafts) => {
      const plan = planOf(itemsOf(drafts));
      const context = contextFor(drafts);
      const answers = answersOf(drafts);
      for (const answer of answers) {
        const ids = new Set(bearingOn(plan.byId, [answer.itemId]));
        const bearing = answers.filter(({ itemId }) => ids.has(itemId));
        if (bearing.length < answers.length) spared += 1;
        expect(verdictForAnswer(plan, answer, bearing, context)).toEqual(
          verdictForAnswer(plan, answer, answers, context),
        );
      }
    }),
    { numRuns: 1500 },
  );
  expect(spared).toBeGreaterThan(1000);
});

const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });
const bearing = (id: string, ...items: Draft[]): string[] =>
  bearingOn(planOf([item("apart"), ...items]).byId, [id]).sort();

describe("what bears on an item", () => {
  test.each<[string, Draft[], string[]]>([
    [
      "what it waits after",
      [item("a"), item("x", { dwell: { after: "a", atLeastS: 1 } })],
      ["a", "x"],
    ],
    [
      "dead hold points before it",
      [item("a", { supply: "dead" }), item("x", { supply: "live" })],
      ["a", "x"],
    ],
    [
      "whatever moves its breaker, either way, and what those need",
      [
        item("b", { after: ["c"], breakers: { leaves: { main: "closed" } } }),
        item("a", { breakers: { leaves: { main: "open" } } }),
        item("x", { breakers: { with: { main: "open" } } }),
        item("c"),
        item("d", { breakers: { leaves: { other: "open" } } }),
      ],
      ["a", "b", "c", "x"],
    ],
    ["what it repeats", [item("a"), item("x", { onFailRepeat: ["a"] })], ["a", "x"]],
    [
      "what can ask for what it needs to be repeated, and what that reads, but not what that needs",
      [
        item("a"),
        item("b"),
        { id: "c", kind: "measure", unit: "V", limit: { min: 1 } },
        {
          ...{ id: "t", kind: "measure", unit: "V", limit: { min: { cel: "answers.c" } } },
          ...{ after: ["b"], onFailRepeat: ["a"] },
        },
        item("x", { after: ["a"] }),
      ],
      ["a", "c", "t", "x"],
    ],
  ])("%s", (_what, items, expected) => {
    expect(bearing("x", ...items)).toEqual(expected);
  });
});

test("a failure's limit, worked out from another answer, is read too", () => {
  const plan = planOf([
    item("a"),
    { id: "c", kind: "measure", unit: "V", limit: { min: 1 } },
    {
      ...{ id: "t", kind: "measure", unit: "V", limit: { min: { cel: "answers.c" } } },
      onFailRepeat: ["a"],
    },
    item("x", { after: ["a"] }),
  ]);
  const volts = (number: number) => ({ number, unit: "V" });
  const answers = [
    answerAt(1, "a", { done: true }),
    answerAt(2, "c", volts(5)),
    answerAt(3, "t", volts(4)),
    answerAt(4, "x", { done: true }),
  ];
  const ids = new Set(bearingOn(plan.byId, ["x"]));
  const read = answers.filter(({ itemId }) => ids.has(itemId));
  const codeOf = (given: typeof answers) =>
    verdictForAnswer(plan, answers[3]!, given, contextOf())?.code;
  expect([codeOf(read), codeOf(answers)]).toEqual(["out-of-sequence", "out-of-sequence"]);
});
