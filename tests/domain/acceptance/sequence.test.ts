// Order of work: what must be met before, and that later answers never change an earlier verdict.
// Breaker off before on, and isolation before voltage: common practice, no source.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const off: Draft = { id: "breaker_off", kind: "confirm", title: "Breaker off" };
const on: Draft = { id: "breaker_on", kind: "confirm", after: ["breaker_off"] };
const done = { done: true };

const codeOf = (
  items: Draft[],
  itemId: string,
  answers: Answer[],
  more = contextOf(),
  subject = "",
) => verdictIn(planOf(items), itemId, answers, more, subject).code;

describe("an item that comes after another", () => {
  test.each<[string, Answer[], string]>([
    ["in order", [answerAt(1, "breaker_off", done), answerAt(2, "breaker_on", done)], "passed"],
    [
      "the wrong way round",
      [answerAt(2, "breaker_off", done), answerAt(1, "breaker_on", done)],
      "out-of-sequence",
    ],
    ["without the first", [answerAt(2, "breaker_on", done)], "out-of-sequence"],
    [
      "after a first that failed",
      [answerAt(1, "breaker_off", { done: false }), answerAt(2, "breaker_on", done)],
      "out-of-sequence",
    ],
    [
      "after a first that failed at last",
      [
        answerAt(1, "breaker_off", done),
        answerAt(2, "breaker_off", { done: false }),
        answerAt(3, "breaker_on", done),
      ],
      "out-of-sequence",
    ],
    [
      "done again in order",
      [
        answerAt(1, "breaker_on", done),
        answerAt(2, "breaker_off", done),
        answerAt(3, "breaker_on", done),
      ],
      "passed",
    ],
  ])("%s: %s", (_what, answers, code) => {
    expect(codeOf([off, on], "breaker_on", answers)).toBe(code);
    expect(codeOf([off, on], "breaker_on", [...answers].reverse())).toBe(code);
  });

  test("at the same time, the order of receipt decides", () => {
    const takenAt = "2026-11-25T09:00:00Z";
    const both = (first: number, second: number) => [
      answerAt(1, "breaker_off", done, { takenAt, order: first }),
      answerAt(2, "breaker_on", done, { takenAt, order: second }),
    ];
    expect(codeOf([off, on], "breaker_on", both(1, 2))).toBe("passed");
    expect(codeOf([off, on], "breaker_on", both(2, 1))).toBe("out-of-sequence");
  });

  test("times are compared as moments, whatever their offsets", () => {
    const answers = [
      answerAt(2, "breaker_off", done, { takenAt: "2026-11-25T11:00:00+02:00" }),
      answerAt(1, "breaker_on", done, { takenAt: "2026-11-25T09:00:01Z" }),
    ];
    expect(codeOf([off, on], "breaker_on", answers)).toBe("passed");
  });

  test("says what had to come first, and how to mend it", () => {
    const plan = planOf([off, on]);
    expect(verdictIn(plan, "breaker_on", [answerAt(2, "breaker_on", done)])).toMatchObject({
      outcome: "out-of-sequence",
      clears: false,
      sentence: 'Confirmed. Taken before "Breaker off" was met.',
      toClear: 'Meet "Breaker off" first, then do this again.',
    });
  });

  test("where the plan only marks it, it is met and marked", () => {
    const marked = { ...on, sequence: "mark" };
    const plan = planOf([off, marked]);
    expect(verdictIn(plan, "breaker_on", [answerAt(2, "breaker_on", done)])).toMatchObject({
      outcome: "out-of-sequence",
      clears: true,
    });
    expect(verdictIn(plan, "breaker_on", [answerAt(2, "breaker_on", { done: false })]).code).toBe(
      "failed",
    );
  });

  test("one that is conceded counts as met, and one that does not apply", () => {
    const concessions = [{ id: "c", itemId: "breaker_off", subject: "", grantedBy: "person-2" }];
    const answers = [answerAt(2, "breaker_on", done)];
    expect(codeOf([off, on], "breaker_on", answers, contextOf({ concessions }))).toBe("passed");
    const offInIt = { ...off, appliesWhen: 'site.supply == "IT"' };
    expect(codeOf([offInIt, on, { id: "x", kind: "confirm" }], "breaker_on", answers)).toBe(
      "passed",
    );
  });

  test("a photo that has not arrived was taken in time all the same", () => {
    const sha256 = "1".repeat(64);
    const photo = { id: "label", kind: "photo", photos: 1 };
    const after = { id: "closed", kind: "confirm", after: ["label"] };
    const answers = [answerAt(1, "label", {}, { photos: [sha256] }), answerAt(2, "closed", done)];
    const context = contextOf({ photosHeld: new Set<string>() });
    expect(codeOf([photo, after], "label", answers, context)).toBe("photo-not-arrived");
    expect(codeOf([photo, after], "closed", answers, context)).toBe("passed");
  });
});

describe("an item asked per unit comes after its own unit's", () => {
  const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
  const items = [
    { ...off, ...perPack },
    { ...on, ...perPack },
    { id: "closed", kind: "confirm", after: ["breaker_on"] },
  ];
  const first = [
    answerAt(1, "breaker_off", done, { subject: "pack-1" }),
    answerAt(2, "breaker_on", done, { subject: "pack-1" }),
  ];
  const second = [
    answerAt(3, "breaker_off", done, { subject: "pack-2" }),
    answerAt(4, "breaker_on", done, { subject: "pack-2" }),
  ];

  test("and not after another's", () => {
    expect(codeOf(items, "breaker_on", first, contextOf(), "pack-1")).toBe("passed");
    const other = [first[0]!, answerAt(2, "breaker_on", done, { subject: "pack-2" })];
    expect(codeOf(items, "breaker_on", other, contextOf(), "pack-2")).toBe("out-of-sequence");
  });

  test("one asked once waits for every unit", () => {
    const closed = answerAt(5, "closed", done);
    expect(codeOf(items, "closed", [...first, ...second, closed])).toBe("passed");
    expect(codeOf(items, "closed", [...first, closed])).toBe("out-of-sequence");
    const sentence = verdictIn(planOf(items), "closed", [...first, closed]).sentence;
    expect(sentence).toBe('Confirmed. Taken before "breaker_on" (KESTREL-5 KH00002) was met.');
  });

  test("and where there is no unit at all, it waits", () => {
    const closed = answerAt(5, "closed", done);
    expect(codeOf(items, "closed", [closed], contextOf({ units: [] }))).toBe("out-of-sequence");
  });
});
