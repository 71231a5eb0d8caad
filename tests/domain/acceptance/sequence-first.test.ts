// Of several things that keep an item from its place in the sequence, which is told first: what
// must be met before, dead tests before live ones, what a failure repeats, the wait, the breakers.
// The order in which they are told is our choice; the rules: IEC 60364-6 6.4.3.1, from memory.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { judge } from "../../../src/domain/acceptance/judge.ts";
import { nextOf } from "../../../src/domain/closeout/next.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const done = { done: true };
const not = { done: false };
const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });

describe("one item with everything before it", () => {
  const items = [
    item("first"),
    item("dead", { supply: "dead" }),
    item("repeated"),
    item("settled"),
    item("off", { breakers: { leaves: { main: "open" } } }),
    item("x", {
      ...{ supply: "live", after: ["first"], onFailRepeat: ["repeated"] },
      dwell: { after: "settled", atLeastS: 300 },
      breakers: { with: { main: "open" } },
    }),
  ];
  const plan = planOf(items);
  const failed = answerAt(0, "x", not);
  const steps: [string, Answer, string, string][] = [
    ["first", answerAt(1, "first", done), "out-of-sequence", 'Taken before "first" was met.'],
    ["settled", answerAt(2, "settled", done), "out-of-sequence", 'Taken before "settled" was met.'],
    [
      "dead",
      answerAt(3, "dead", done),
      "out-of-sequence",
      'Taken with the supply on before "dead", which is done with it off, was met.',
    ],
    [
      "repeated",
      answerAt(4, "repeated", done),
      "out-of-sequence",
      'Taken before "repeated" was met.',
    ],
    [
      "wait",
      answerAt(5, "x", done),
      "too-soon",
      'Taken 4 min after "settled" was met; needed at least 5 min, ' +
        "so from 2026-11-25 09:07:00 (UTC) on.",
    ],
    [
      "off",
      answerAt(8, "off", done),
      "breaker-state",
      'How breaker "main" stood is not known; needed open.',
    ],
  ];

  test.each(steps.map(([what, , code, sentence], index) => ({ what, code, sentence, index })))(
    "is told of $what while that is wanting",
    ({ code, sentence, index }) => {
      const before = steps.slice(0, index).map(([, answer]) => answer);
      const minute = index < 5 ? 6 : 7;
      const answers = [failed, ...before, answerAt(minute, "x", done, { id: "last", order: 99 })];
      expect(verdictIn(plan, "x", answers)).toMatchObject({
        ...{ outcome: "out-of-sequence", code, sentence: `Confirmed. ${sentence}` },
      });
    },
  );

  test("and is met with all of it done", () => {
    const answers = [failed, ...steps.map(([, answer]) => answer), answerAt(9, "x", done)];
    expect(verdictIn(plan, "x", answers).code).toBe("passed");
  });

  test("the next step lists them all, in that order, and five at most", () => {
    const blockedBy = (answers: Answer[], now = "2026-11-25T09:06:00Z") =>
      nextOf(plan, [failed, ...answers], contextOf({ now })).steps.find(
        ({ itemId }) => itemId === "x",
      )?.blockedBy;
    expect(blockedBy([])?.map(({ code, itemId }) => `${code} ${itemId}`)).toEqual([
      "out-of-sequence first",
      "out-of-sequence settled",
      "out-of-sequence dead",
      "out-of-sequence repeated",
      "breaker-state off",
    ]);
    const settled = answerAt(2, "settled", done);
    expect(blockedBy([settled])?.map(({ code }) => code)).toEqual([
      ...["out-of-sequence", "out-of-sequence", "out-of-sequence", "too-soon", "breaker-state"],
    ]);
    const first = answerAt(1, "first", done);
    expect(blockedBy([first, settled])?.map(({ itemId }) => itemId)).toEqual([
      ...["dead", "repeated", undefined, "off"],
    ]);
  });
});

describe("each item that is wanting is listed once", () => {
  const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };

  test("though it is wanting for two reasons, and for two units", () => {
    const items = [
      item("a", { supply: "dead", ...perPack }),
      item("x", { supply: "live", after: ["a"] }),
    ];
    const { steps } = nextOf(planOf(items), [], contextOf());
    expect(steps.at(-1)?.blockedBy).toEqual([
      {
        ...{ code: "out-of-sequence", itemId: "a", subject: "pack-1" },
        sentence: 'Taken before "a" (KESTREL-5 KH00001) was met.',
        toClear: 'Meet "a" first, then do this again.',
      },
    ]);
  });

  test("two breakers that stand otherwise are two", () => {
    const items = [
      item("off", { breakers: { leaves: { main: "open", pv: "open" } } }),
      item("x", { breakers: { with: { main: "open", pv: "open" } } }),
    ];
    const { steps } = nextOf(planOf(items), [], contextOf());
    expect(steps.at(-1)?.blockedBy.map(({ toClear }) => toClear)).toEqual([
      'Do "off", so that it is open, then do this again.',
      'Do "off", so that it is open, then do this again.',
    ]);
  });
});

describe("what was answered at one time", () => {
  const plan = planOf([item("x")]);
  const takenAt = "2026-11-25T09:00:00Z";
  const answer = (id: string, order: number, value: object): Answer =>
    answerAt(1, "x", value, { id, order, takenAt });

  test("and received at one place in the order is told apart by its id", () => {
    const [one, two] = [answer("b", 1, not), answer("a", 1, done)];
    expect(verdictIn(plan, "x", [one, two]).answerId).toBe("b");
    expect(verdictIn(plan, "x", [two, one]).answerId).toBe("b");
  });

  test("counts by the order of receipt, whatever the ids", () => {
    const [one, two] = [answer("b", 1, not), answer("a", 2, done)];
    expect(verdictIn(plan, "x", [two, one])).toMatchObject({ answerId: "a", attempts: 2 });
  });
});

test("a verdict on what the plan does not ask is refused by name", () => {
  const plan = planOf([item("x")]);
  const ask = (itemId: string, subject: string) => () =>
    judge(plan, itemId, subject, [], contextOf());
  expect(ask("y", "")).toThrow(new RangeError('y is not asked for ""'));
  expect(ask("x", "pack-1")).toThrow(new RangeError('x is not asked for "pack-1"'));
});

describe("a concession that releases what comes before", () => {
  const items = [item("a"), item("x", { after: ["a"] })];
  const concession = (id: string, grantedBy: string) => ({
    ...{ id, itemId: "a", subject: "", grantedBy },
  });
  const answers = [answerAt(1, "a", not), answerAt(2, "x", done)];
  const codeWith = (...grantors: string[]) => {
    const concessions = grantors.map((grantedBy, index) => concession(`c-${index}`, grantedBy));
    return verdictIn(planOf(items), "x", answers, contextOf({ concessions })).code;
  };

  test("counts unless its grantor took the reading, another's beside it all the same", () => {
    expect(codeWith("person-1")).toBe("out-of-sequence");
    expect(codeWith("person-1", "person-2")).toBe("passed");
    expect(codeWith("person-2", "person-1")).toBe("passed");
  });
});
