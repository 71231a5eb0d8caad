// Which of several things is told where more than one would do: the right breaker's mover, the last
// failure, the state at the moment rather than the latest (IEC 60364-6 6.4.3.1, from memory; the
// rest common practice, no source).
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { closeOut } from "../../../src/domain/closeout/gate.ts";
import { nextOf } from "../../../src/domain/closeout/next.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const done = { done: true };
const not = { done: false };
const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });
const leaves = (states: Draft): Draft => ({ breakers: { leaves: states } });
const stands = (states: Draft): Draft => ({ breakers: { with: states } });

describe("a breaker", () => {
  test("is brought to its state by what moves that one, and that way", () => {
    const items = [
      item("pv_off", leaves({ pv: "open" })),
      item("main_on", leaves({ main: "closed" })),
      item("main_off", leaves({ main: "open" })),
      item("x", stands({ main: "open" })),
    ];
    expect(verdictIn(planOf(items), "x", [answerAt(1, "x", done)]).toClear).toBe(
      'Do "main_off", so that it is open, then do this again.',
    );
  });

  test("is as it was at each moment, whichever item the plan names first", () => {
    const items = [
      item("off", leaves({ main: "open" })),
      item("on", leaves({ main: "closed" })),
      item("late", stands({ main: "closed" })),
      item("early", stands({ main: "open" })),
      item("between", stands({ main: "closed" })),
      item("first", stands({ main: "open" })),
    ];
    const order = ["first", "off", "early", "on", "between", "off", "on", "late"];
    const answers = order.map((id, minute) => answerAt(minute, id, done));
    const { facts } = closeOut(planOf(items), answers, contextOf());
    expect(facts.map(({ itemId, code }) => `${itemId} ${code}`)).toEqual([
      ...["off passed", "on passed", "late passed", "early passed", "between passed"],
      "first breaker-state",
    ]);
  });
});

describe("of two tests that failed", () => {
  const repeats = { onFailRepeat: ["continuity"] };
  const items = [item("continuity"), item("one", repeats), item("two", repeats)];
  const told = (first: number, second: number) =>
    verdictIn(planOf(items), "continuity", [
      answerAt(1, "continuity", done),
      answerAt(first, "one", not),
      answerAt(second, "two", not),
    ]).sentence;

  test("the last is told, whichever the plan names first", () => {
    expect(told(2, 3)).toContain('"two" failed after it, at 2026-11-25 09:03:00 (UTC)');
    expect(told(3, 2)).toContain('"one" failed after it, at 2026-11-25 09:03:00 (UTC)');
  });
});

test("an answer that was kept and cannot be read shows no fault", () => {
  const plan = planOf([item("continuity"), item("test", { onFailRepeat: ["continuity"] })]);
  const answers = [answerAt(1, "continuity", done), answerAt(2, "test", { done: "perhaps" })];
  expect(verdictIn(plan, "test", answers).code).toBe("unreadable");
  expect(verdictIn(plan, "continuity", answers).code).toBe("passed");
});

describe("a live item among dead ones that are met later", () => {
  const dead = { supply: "dead" };
  const never = item("never", { ...dead, appliesWhen: 'site.supply == "IT"' });
  const live = item("live", { supply: "live" });
  const code = (items: Draft[], answers: Answer[]) =>
    verdictIn(planOf(items), "live", answers).code;
  const answers = (one: number, two: number) => [
    answerAt(one, "one", done),
    answerAt(two, "two", done),
    answerAt(3, "live", done),
  ];

  test.each<[number, number, string]>([
    [1, 2, "passed"],
    [2, 1, "passed"],
    [5, 1, "out-of-sequence"],
    [1, 5, "out-of-sequence"],
    [5, 6, "out-of-sequence"],
  ])("tested dead at minutes %d and %d, live at 3: %s", (one, two, expected) => {
    const both = [item("one", dead), item("two", dead)];
    expect(code([...both, live], answers(one, two))).toBe(expected);
    expect(code([...both, never, live], answers(one, two))).toBe(expected);
    expect(code([never, ...both, live], answers(one, two))).toBe(expected);
  });

  test("at the very time of the last dead one, the order of receipt decides", () => {
    const items = [item("one", dead), live];
    const at = (order: number) => [
      answerAt(3, "one", done, { order: 3 }),
      answerAt(3, "live", done, { order }),
    ];
    expect(code(items, at(4))).toBe("passed");
    expect(code(items, at(2))).toBe("out-of-sequence");
  });
});

describe("an item done after another that failed", () => {
  test("wants it met, and the wait since it all the same", () => {
    const items = [item("a"), item("x", { dwell: { after: "a", atLeastS: 600 } })];
    const context = contextOf({ now: "2026-11-25T09:06:00Z" });
    const { steps } = nextOf(planOf(items), [answerAt(5, "a", not)], context);
    expect(steps[1]?.blockedBy.map(({ code }) => code)).toEqual(["out-of-sequence", "too-soon"]);
  });

  test("counts the wait from the unit that was done, where another is released undone", () => {
    const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
    const items = [
      item("a", perPack),
      item("x", { dwell: { after: "a", atLeastS: 0, atMostS: 60 } }),
    ];
    const concessions = [{ id: "c", itemId: "a", subject: "pack-1", grantedBy: "person-2" }];
    const answers = [answerAt(1, "a", done, { subject: "pack-2" }), answerAt(5, "x", done)];
    const verdict = verdictIn(planOf(items), "x", answers, contextOf({ concessions }));
    expect(verdict.code).toBe("too-late");
  });
});
