// Where the way to the next thing to do leads when a step cannot be done now: common practice, no
// source.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { nextOf } from "../../../src/domain/closeout/next.ts";
import { answerAt, contextOf } from "../acceptance/judged.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";

const done = { done: true };
const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });
const next = (items: Draft[], answers: Answer[] = []) =>
  nextOf(planOf(items), answers, contextOf({ now: "2026-11-25T09:10:00Z" }));
const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
const perMeter = { repeat: { per: "unit", ofKind: "meter" } };
const of = (subject: string) => ({ subject });

describe("a step that waits and needs something first", () => {
  const items = [
    item("a"),
    item("x", { after: ["b"], dwell: { after: "a", atLeastS: 600 } }),
    item("b", { holdPoint: false }),
  ];
  const met = answerAt(6, "a", done);

  test("is blocked, and tells no time", () => {
    const step = next(items, [met]).steps.find(({ itemId }) => itemId === "x");
    expect(step?.blockedBy.map(({ code }) => code)).toEqual(["out-of-sequence", "too-soon"]);
    expect(step?.state).toBe("blocked");
    expect(step).not.toHaveProperty("waitsUntil");
  });

  test("leads to what it needs, though that alone would be passed over", () => {
    const failed = answerAt(7, "b", { done: false });
    expect(next(items, [met, failed]).next).toEqual({ itemId: "b", subject: "", isAgain: true });
  });
});

describe("what took too long is done again", () => {
  const within = { dwell: { after: "a", atLeastS: 0, atMostS: 60 } };
  const items = [item("a", perPack), item("x", { ...perPack, ...within })];
  const met = [answerAt(1, "a", done, of("pack-1")), answerAt(1, "a", done, of("pack-2"))];

  test.each<[string, Answer[]]>([
    ["pack-1", []],
    ["pack-2", [answerAt(2, "x", done, of("pack-1"))]],
  ])("for the very unit that waited for it: %s", (subject, answers) => {
    expect(next(items, [...met, ...answers]).next).toEqual({
      ...{ itemId: "a", subject, isAgain: true },
    });
  });

  test("only after the breaker stands again as it needs it", () => {
    const guarded = [
      item("off", { breakers: { leaves: { main: "open" } } }),
      item("a", { breakers: { with: { main: "open" } } }),
      item("on", { breakers: { leaves: { main: "closed" } } }),
      item("x", within),
    ];
    const answers = ["off", "a", "on"].map((id, index) => answerAt(index + 1, id, done));
    expect(next(guarded, answers).next).toEqual({ itemId: "off", subject: "", isAgain: true });
  });
});

describe("a breaker that stands otherwise", () => {
  test("is moved by what applies, where the first that would move it does not", () => {
    const leaves = { breakers: { leaves: { main: "open" } } };
    const items = [
      item("never", { ...leaves, appliesWhen: 'site.supply == "IT"' }),
      item("off", leaves),
      item("on", { breakers: { leaves: { main: "closed" } } }),
      item("x", { breakers: { with: { main: "open" } } }),
    ];
    const answers = [answerAt(1, "off", done), answerAt(2, "on", done)];
    expect(next(items, answers).next).toEqual({ itemId: "off", subject: "", isAgain: true });
  });

  test("and waits for another that waits for it is moved by a third", () => {
    const items = [
      item("two", { breakers: { with: { pv: "open" }, leaves: { main: "closed" } } }),
      item("start", { breakers: { leaves: { main: "closed" } } }),
      item("one", { breakers: { with: { main: "closed" }, leaves: { pv: "open" } } }),
      item("last", { breakers: { leaves: { main: "open", pv: "closed" } } }),
      item("x", { breakers: { with: { main: "closed" } } }),
    ];
    const answers = ["start", "one", "two", "last"].map((id, at) => answerAt(at + 1, id, done));
    expect(next(items, answers).steps.map(({ state }) => state)).toEqual([
      ...["met", "met", "met", "met", "blocked"],
    ]);
    expect(next(items, answers).next).toEqual({ itemId: "start", subject: "", isAgain: true });
  });

  test("leads nowhere where only an item without units would move it", () => {
    const items = [
      item("off", { ...perMeter, breakers: { leaves: { main: "open" } } }),
      item("x", { breakers: { with: { main: "open" } } }),
      item("y"),
    ];
    expect(next(items).next?.itemId).toBe("y");
  });
});

test("a step that needs a unit that is not there leads nowhere: what can be done comes", () => {
  const items = [item("meter", perMeter), item("x", { after: ["meter"] }), item("y")];
  expect(next(items).next?.itemId).toBe("y");
});

test("of two waits the one that ends first is told", () => {
  const items = [
    item("a"),
    item("long", { dwell: { after: "a", atLeastS: 900 } }),
    item("short", { dwell: { after: "a", atLeastS: 300 } }),
  ];
  expect(next(items, [answerAt(6, "a", done)])).toMatchObject({
    steps: [
      { state: "met" },
      { state: "waits", waitsUntil: "2026-11-25T09:21:00Z" },
      { state: "waits", waitsUntil: "2026-11-25T09:11:00Z" },
    ],
    waitsUntil: "2026-11-25T09:11:00Z",
  });
});

describe("an item without units", () => {
  const missing = {
    code: "no-subjects",
    sentence: "There is no meter on the job.",
  };

  test("is blocked by the unit that is missing", () => {
    expect(next([item("a", perMeter)])).toEqual({
      steps: [
        {
          ...{ itemId: "a", stageId: "all", subject: "", subjectLabel: "", holdPoint: true },
          ...{ state: "blocked", outcome: "missing", ...missing, attempts: 0 },
          blockedBy: [{ ...missing, toClear: "Put the meter on the job by its serial number." }],
        },
      ],
    });
  });

  test("that does not apply is not blocked", () => {
    const meter = item("a", { ...perMeter, appliesWhen: "count.meter > 0" });
    expect(next([meter, item("b")]).steps[0]).toMatchObject({
      ...{ state: "not-applicable", outcome: "not-applicable", code: "not-applicable" },
      ...{ sentence: "It does not apply to this job.", attempts: 0, blockedBy: [] },
    });
  });
});
