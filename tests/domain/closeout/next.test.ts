// One next thing to do, led there through the order of work: common practice, no source.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { nextOf } from "../../../src/domain/closeout/next.ts";
import type { JobContext } from "../../../src/domain/plan/context.ts";
import { answerAt, contextOf } from "../acceptance/judged.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";

const done = { done: true };
const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });
const AT_TEN = { now: "2026-11-25T09:10:00Z" };
const next = (items: Draft[], answers: Answer[] = [], more: Partial<JobContext> = AT_TEN) =>
  nextOf(planOf(items), answers, contextOf(more));
const states = (...given: Parameters<typeof next>) =>
  next(...given).steps.map(({ itemId, subject, state }) => [itemId, subject, state].join(" "));
const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };

describe("steps stand in working order", () => {
  test("the plan's, unit by unit", () => {
    expect(states([item("a", perPack), item("b")])).toEqual([
      "a pack-1 open",
      "a pack-2 open",
      "b  open",
    ]);
  });

  test("and each after what it needs, though the plan has it later", () => {
    const items = [
      item("a", { after: ["c"] }),
      item("b"),
      item("c", { dwell: { after: "d", atLeastS: 0 } }),
      item("d"),
    ];
    expect(states(items)).toEqual(["d  open", "c  blocked", "a  blocked", "b  open"]);
    expect(next(items).next).toEqual({ itemId: "d", subject: "", isAgain: false });
  });
});

describe("a step is", () => {
  test("met, open, blocked or does not apply", () => {
    const items = [
      item("a"),
      item("b"),
      item("c", { after: ["b"] }),
      item("d", { appliesWhen: 'site.supply == "IT"' }),
      item("e", { repeat: { per: "unit", ofKind: "meter" } }),
      item("f", { repeat: { per: "unit", ofKind: "meter" }, appliesWhen: "count.meter > 0" }),
    ];
    expect(states(items, [answerAt(1, "a", done)])).toEqual([
      ...["a  met", "b  open", "c  blocked", "d  not-applicable"],
      ...["e  blocked", "f  not-applicable"],
    ]);
  });

  test("blocked by what is named, in the words of the verdict it would get", () => {
    const { steps } = next([
      item("a", { title: "First", ...perPack }),
      item("b", { after: ["a"] }),
    ]);
    expect(steps[2]).toMatchObject({
      ...{ itemId: "b", stageId: "all", holdPoint: true, attempts: 0, code: "missing" },
      blockedBy: [
        {
          ...{ code: "out-of-sequence", itemId: "a", subject: "pack-1" },
          sentence: 'Taken before "First" (KESTREL-5 KH00001) was met.',
          toClear: 'Meet "First" first, then do this again.',
        },
      ],
    });
  });

  test("blocked by at most five things, each once", () => {
    const many = Array.from({ length: 7 }, (_, index) => item(`d${index}`, { supply: "dead" }));
    const after = many.map(({ id }) => id);
    const { steps } = next([...many, item("x", { supply: "live", after, onFailRepeat: after })]);
    expect(steps[7]?.blockedBy.map(({ itemId }) => itemId)).toEqual(["d0", "d1", "d2", "d3", "d4"]);
    const two = next([...many.slice(0, 2), item("x", { supply: "live", after: ["d0", "d1"] })]);
    expect(two.steps[2]?.blockedBy).toHaveLength(2);
  });

  test("open again after a failure, and then comes first", () => {
    const answers = [answerAt(1, "a", { done: false })];
    const result = next([item("a"), item("b")], answers);
    expect(result.steps[0]).toMatchObject({ state: "open", code: "failed", attempts: 1 });
    expect(result.next).toEqual({ itemId: "a", subject: "", isAgain: true });
  });

  test("passed over where it is no hold point and has an answer", () => {
    const items = [item("a", { holdPoint: false }), item("b")];
    expect(next(items).next?.itemId).toBe("a");
    expect(next(items, [answerAt(1, "a", { done: false })]).next?.itemId).toBe("b");
  });
});

describe("waiting", () => {
  const items = [item("a"), item("x", { dwell: { after: "a", atLeastS: 300 } }), item("b")];
  const answers = [answerAt(6, "a", done)];

  test("something else comes first meanwhile", () => {
    const { steps, next: first } = next(items, answers);
    expect(steps[1]).toMatchObject({ state: "waits", waitsUntil: "2026-11-25T09:11:00Z" });
    expect(steps[1]?.blockedBy).toMatchObject([{ code: "too-soon" }]);
    expect(steps[1]?.blockedBy[0]).not.toHaveProperty("itemId");
    expect(first?.itemId).toBe("b");
  });

  test("where there is nothing else, until when is told", () => {
    const result = next(items, [...answers, answerAt(7, "b", done)]);
    expect(result).not.toHaveProperty("next");
    expect(result.waitsUntil).toBe("2026-11-25T09:11:00Z");
  });

  test("is over on the instant", () => {
    const at = (now: string) => states(items, answers, { now })[1];
    expect(at("2026-11-25T09:10:59.999Z")).toBe("x  waits");
    expect(at("2026-11-25T09:11:00Z")).toBe("x  open");
  });

  test("what it waited for is done again where it took too long", () => {
    const short = [item("a"), item("x", { dwell: { after: "a", atLeastS: 0, atMostS: 60 } })];
    const result = next(short, answers);
    expect(result.steps[1]).toMatchObject({
      state: "blocked",
      blockedBy: [{ code: "too-late", itemId: "a", subject: "" }],
    });
    expect(result.next).toEqual({ itemId: "a", subject: "", isAgain: true });
  });
});

describe("breakers", () => {
  const off = item("off", { breakers: { leaves: { main: "open" } } });
  const on = item("on", { breakers: { with: { main: "open" }, leaves: { main: "closed" } } });
  const x = item("x", { breakers: { with: { main: "open" } } });
  const met = [answerAt(1, "off", done), answerAt(2, "on", done)];

  test("what moves one is done again where it stands otherwise", () => {
    const result = next([off, on, x], met);
    expect(result.steps[2]).toMatchObject({
      state: "blocked",
      blockedBy: [{ code: "breaker-state", itemId: "off" }],
    });
    expect(result.next).toEqual({ itemId: "off", subject: "", isAgain: true });
    expect(next([off, on, x], [...met, answerAt(3, "off", done)]).next?.itemId).toBe("x");
  });

  test("what moves one is not done out of its own place", () => {
    const guarded = item("off", { ...off, after: ["a"] });
    expect(next([item("a"), guarded, on, x]).next?.itemId).toBe("a");
    const again = item("off", { breakers: { with: { main: "closed" }, leaves: { main: "open" } } });
    const start = item("start", { breakers: { leaves: { main: "closed" } } });
    const items = [start, again, x, item("y", { breakers: { with: { main: "closed" } } })];
    const answers = [answerAt(1, "start", done), answerAt(2, "off", done), answerAt(3, "x", done)];
    expect(next(items, answers).next).toEqual({ itemId: "start", subject: "", isAgain: true });
  });

  test("and what does not apply moves none", () => {
    const never = item("off", { ...off, appliesWhen: 'site.supply == "IT"' });
    const other = item("other", { breakers: { leaves: { main: "open" } } });
    expect(next([never, on, x, other]).next?.itemId).toBe("other");
  });
});

test("a breaker is not moved for what still waits, but for what can be done meanwhile", () => {
  const items = [
    item("on", { breakers: { leaves: { main: "closed" } } }),
    item("off", { breakers: { leaves: { main: "open" } } }),
    item("x", { dwell: { after: "on", atLeastS: 600 }, breakers: { with: { main: "closed" } } }),
    item("y", { breakers: { with: { main: "open" } } }),
  ];
  const answers = [answerAt(1, "on", done), answerAt(2, "off", done)];
  const now = next(items, answers);
  expect(now.steps[2]).toMatchObject({ state: "waits", waitsUntil: "2026-11-25T09:11:00Z" });
  expect(now.steps[2]?.blockedBy.map(({ code }) => code)).toEqual(["too-soon", "breaker-state"]);
  expect(now.next?.itemId).toBe("y");
  const rest = [...answers, answerAt(3, "y", done)];
  expect(next(items, rest).waitsUntil).toBe("2026-11-25T09:11:00Z");
  expect(next(items, rest, { now: "2026-11-25T09:11:00Z" }).next?.itemId).toBe("on");
});

test("after a failure leads to what is repeated, then to the test that failed", () => {
  const items = [item("a"), item("b", { after: ["a"], onFailRepeat: ["a"] })];
  const failed = [answerAt(1, "a", done), answerAt(2, "b", { done: false })];
  expect(next(items, failed).next).toEqual({ itemId: "a", subject: "", isAgain: true });
  expect(states(items, failed)).toEqual(["a  open", "b  blocked"]);
  expect(next(items, [...failed, answerAt(3, "a", done)]).next?.itemId).toBe("b");
  const mended = [...failed, answerAt(3, "a", done), answerAt(4, "b", done)];
  expect(next(items, mended)).toMatchObject({ steps: [{ state: "met" }, { state: "met" }] });
  expect(next(items, mended)).not.toHaveProperty("next");
});
