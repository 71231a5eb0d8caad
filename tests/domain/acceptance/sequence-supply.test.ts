// Dead tests before live ones (IEC 60364-6 6.4.3.1, from memory).
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const done = { done: true };
const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });
const dead = item("continuity", { supply: "dead", title: "Continuity" });
const live = item("loop", { supply: "live" });

const codeOf = (items: Draft[], answers: Answer[], context = contextOf(), subject = "") =>
  verdictIn(planOf(items), "loop", answers, context, subject).code;

const bothInOrder = [answerAt(1, "continuity", done), answerAt(2, "loop", done)];
const liveAlone = [answerAt(2, "loop", done)];

describe("a live item needs the dead hold points before it in the plan", () => {
  test.each<[string, Draft[], Answer[], string]>([
    ["met", [dead, live], bothInOrder, "passed"],
    ["not answered", [dead, live], liveAlone, "out-of-sequence"],
    [
      "answered later",
      [dead, live],
      [answerAt(1, "loop", done), answerAt(2, "continuity", done)],
      "out-of-sequence",
    ],
    [
      "failed at last",
      [dead, live],
      [
        answerAt(1, "continuity", done),
        answerAt(2, "continuity", { done: false }),
        answerAt(3, "loop", done),
      ],
      "out-of-sequence",
    ],
    ["that stand after it: none", [live, dead], liveAlone, "passed"],
    ["that are no hold points: none", [{ ...dead, holdPoint: false }, live], liveAlone, "passed"],
    [
      "that are safety-critical, hold points or not",
      [{ ...dead, holdPoint: false, safetyCritical: true }, live],
      liveAlone,
      "out-of-sequence",
    ],
    [
      "that do not apply: none",
      [{ ...dead, appliesWhen: 'site.supply == "IT"' }, live],
      liveAlone,
      "passed",
    ],
    ["of which the supply is not said: none", [item("continuity"), live], liveAlone, "passed"],
    [
      "and only marks it where the plan says so",
      [dead, { ...live, sequence: "mark" }],
      liveAlone,
      "out-of-sequence",
    ],
  ])("%s", (_what, items, answers, code) => {
    expect(codeOf(items, answers)).toBe(code);
  });

  test("in another stage too", () => {
    const stages = [dead, live].map((one, index) => ({
      ...{ id: `stage_${index}`, title: "Stage" },
      items: [{ title: "Item", do: "Do it", holdPoint: true, ...one }],
    }));
    const plan = planOf([], { stages });
    expect(verdictIn(plan, "loop", liveAlone).code).toBe("out-of-sequence");
    expect(verdictIn(plan, "loop", bothInOrder).code).toBe("passed");
  });

  test("and not those that are done dead themselves", () => {
    const second = item("loop", { supply: "dead" });
    expect(codeOf([dead, second], liveAlone)).toBe("passed");
  });

  test("for its own unit, where both are asked per unit", () => {
    const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
    const items = [
      { ...dead, ...perPack },
      { ...live, ...perPack },
    ];
    const answers = [
      answerAt(1, "continuity", done, { subject: "pack-1" }),
      answerAt(2, "loop", done, { subject: "pack-1" }),
      answerAt(3, "loop", done, { subject: "pack-2" }),
    ];
    expect(codeOf(items, answers, contextOf(), "pack-1")).toBe("passed");
    expect(codeOf(items, answers, contextOf(), "pack-2")).toBe("out-of-sequence");
  });

  test("for every unit, where the live one is asked once", () => {
    const perPack = { ...dead, repeat: { per: "unit", ofKind: "battery-pack" } };
    const one = answerAt(1, "continuity", done, { subject: "pack-1" });
    const two = answerAt(2, "continuity", done, { subject: "pack-2" });
    const loop = answerAt(3, "loop", done);
    expect(codeOf([perPack, live], [one, loop])).toBe("out-of-sequence");
    expect(codeOf([perPack, live], [one, two, loop])).toBe("passed");
    expect(codeOf([perPack, live], [loop], contextOf({ units: [] }))).toBe("out-of-sequence");
  });

  test("conceded ones count as met", () => {
    const concessions = [{ id: "c", itemId: "continuity", subject: "", grantedBy: "person-2" }];
    expect(codeOf([dead, live], liveAlone, contextOf({ concessions }))).toBe("passed");
  });
});

test("a live item tried too early says what is still to be tested dead", () => {
  expect(verdictIn(planOf([dead, live]), "loop", liveAlone)).toMatchObject({
    outcome: "out-of-sequence",
    clears: false,
    sentence:
      'Confirmed. Taken with the supply on before "Continuity", ' +
      "which is done with it off, was met.",
    toClear: 'Meet "Continuity" first, then do this again.',
  });
});

test("a dead test that a failure repeats holds up live items, answered before or not", () => {
  const tester = item("polarity", { supply: "dead", onFailRepeat: ["continuity"] });
  const items = [dead, tester, live, item("later", { supply: "live" })];
  const plan = planOf(items);
  const answers = [
    answerAt(1, "continuity", done),
    answerAt(2, "polarity", done),
    answerAt(3, "loop", done),
    answerAt(4, "polarity", { done: false }),
    answerAt(5, "continuity", done),
    answerAt(6, "polarity", { done: false }),
    answerAt(7, "continuity", done),
    answerAt(8, "polarity", done),
    answerAt(9, "later", done),
  ];
  const until = (minute: number) => answers.filter(({ order }) => order <= minute);
  expect(verdictIn(plan, "loop", answers).code).toBe("passed");
  expect(verdictIn(plan, "later", answers).code).toBe("passed");
  const early = [...until(4), answerAt(9, "later", done)];
  expect(verdictIn(plan, "later", early).code).toBe("out-of-sequence");
  const failedAgain = [...until(3), answerAt(4, "polarity", { done: false })];
  const unrepeated = [...failedAgain, answerAt(5, "polarity", done), answerAt(9, "later", done)];
  expect(verdictIn(plan, "later", unrepeated).code).toBe("out-of-sequence");
});

test("a dead hold point met, with a failure since, holds up a live item", () => {
  const tester = item("polarity", {
    ...{ holdPoint: false, supply: "dead", sequence: "mark", onFailRepeat: ["continuity"] },
  });
  const answers = [
    answerAt(1, "continuity", done),
    answerAt(2, "polarity", { done: false }),
    answerAt(3, "loop", done),
  ];
  const { code, sentence } = verdictIn(planOf([dead, tester, live]), "loop", answers);
  expect(code).toBe("out-of-sequence");
  expect(sentence).toBe(
    'Confirmed. Taken before "Continuity" was repeated, since "polarity" failed.',
  );
});

test("150 dead items before 150 live ones are told apart, whatever is answered when", () => {
  const items = Array.from({ length: 300 }, (_, index) =>
    item(`i${index}`, { supply: index % 2 === 0 ? "dead" : "live" }),
  );
  const plan = planOf(items);
  const edges = plan.items.reduce((sum, one) => sum + (one.sequence?.deadBefore.length ?? 0), 0);
  expect(edges).toBe((150 * 151) / 2);
  const answers = items.map((_one, index) =>
    answerAt(0, `i${index}`, done, {
      order: index,
      takenAt: new Date(Date.UTC(2026, 10, 25, 9, 0, index)).toISOString(),
    }),
  );
  expect(verdictIn(plan, "i299", answers).code).toBe("passed");
  expect(verdictIn(plan, "i299", answers.toSpliced(100, 1)).code).toBe("out-of-sequence");
});
