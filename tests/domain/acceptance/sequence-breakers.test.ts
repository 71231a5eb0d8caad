// Breakers as a test needs them: common practice, no source.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const done = { done: true };
const not = { done: false };
const open: Draft = {
  ...{ id: "switch_off", kind: "confirm", title: "Switch off" },
  breakers: { leaves: { battery_main: "open" } },
};
const close: Draft = {
  ...{ id: "switch_on", kind: "confirm", title: "Switch on" },
  breakers: { with: { battery_main: "open" }, leaves: { battery_main: "closed" } },
};
const measured: Draft = {
  ...{ id: "voltage", kind: "measure", unit: "V", limit: { min: 38 } },
  breakers: { with: { battery_main: "open" } },
};
const items = [open, close, measured];
const volts = { number: 52, unit: "V" };

const verdictOf = (answers: Answer[], more: Draft[] = items) =>
  verdictIn(planOf(more), "voltage", answers);

describe("an item that needs a breaker open", () => {
  test.each<[string, Answer[], string]>([
    [
      "after it was opened",
      [answerAt(1, "switch_off", done), answerAt(2, "voltage", volts)],
      "passed",
    ],
    ["where nothing tells how it stands", [answerAt(2, "voltage", volts)], "breaker-state"],
    [
      "after it was opened and closed",
      [
        answerAt(1, "switch_off", done),
        answerAt(2, "switch_on", done),
        answerAt(3, "voltage", volts),
      ],
      "breaker-state",
    ],
    [
      "after it was opened again",
      [
        answerAt(1, "switch_off", done),
        answerAt(2, "switch_on", done),
        answerAt(3, "switch_off", done),
        answerAt(4, "voltage", volts),
      ],
      "passed",
    ],
    [
      "after what would have opened it and failed",
      [answerAt(1, "switch_off", not), answerAt(2, "voltage", volts)],
      "breaker-state",
    ],
    [
      "after what would have closed it and failed",
      [
        answerAt(1, "switch_off", done),
        answerAt(2, "switch_on", not),
        answerAt(3, "voltage", volts),
      ],
      "passed",
    ],
    [
      "after what closed it, itself out of sequence, so that it does not count",
      [
        answerAt(1, "switch_on", done),
        answerAt(2, "switch_off", done),
        answerAt(3, "voltage", volts),
      ],
      "passed",
    ],
    [
      "before it was opened",
      [answerAt(2, "switch_off", done), answerAt(1, "voltage", volts)],
      "breaker-state",
    ],
  ])("%s", (_what, answers, code) => {
    expect(verdictOf(answers).code).toBe(code);
    expect(verdictOf(answers.toReversed()).code).toBe(code);
  });

  test("where it is closed, is told how it stood, what is needed and the way there", () => {
    const answers = [
      answerAt(1, "switch_off", done),
      answerAt(2, "switch_on", done),
      answerAt(3, "voltage", volts),
    ];
    expect(verdictOf(answers)).toMatchObject({
      outcome: "out-of-sequence",
      clears: false,
      sentence:
        "Read 52 V; needed at least 38 V. " +
        'Breaker "battery_main" was closed since "Switch on"; needed open.',
      toClear: 'Do "Switch off", so that it is open, then do this again.',
      reading: { number: 52, unit: "V" },
    });
  });

  test("where its state is not known, says so", () => {
    expect(verdictOf([answerAt(3, "voltage", volts)]).sentence).toBe(
      "Read 52 V; needed at least 38 V. " +
        'How breaker "battery_main" stood is not known; needed open.',
    );
  });

  test("is met and marked where the plan only marks", () => {
    const marked = [open, close, { ...measured, sequence: "mark" }];
    expect(verdictOf([answerAt(3, "voltage", volts)], marked)).toMatchObject({
      ...{ outcome: "out-of-sequence", code: "breaker-state", clears: true },
    });
  });

  test("is not told by a concession: released is not switched", () => {
    const concessions = [{ id: "c", itemId: "switch_off", subject: "", grantedBy: "person-2" }];
    const answers = [answerAt(3, "voltage", volts)];
    const verdict = verdictIn(planOf(items), "voltage", answers, contextOf({ concessions }));
    expect(verdict.code).toBe("breaker-state");
  });
});

test("every unit's answer moves the breaker, of units on the job", () => {
  const each = { ...open, repeat: { per: "unit", ofKind: "battery-pack" } };
  const answers = (subject: string) => [
    answerAt(1, "switch_off", done, { subject }),
    answerAt(2, "voltage", volts),
  ];
  expect(verdictOf(answers("pack-2"), [each, measured]).code).toBe("passed");
  expect(verdictOf(answers("pack-9"), [each, measured]).code).toBe("breaker-state");
});

test("several breakers are told apart, names of every object's fields among them", () => {
  const two: Draft[] = [
    { ...open, breakers: { leaves: { constructor: "open", dc: "closed" } } },
    { ...measured, breakers: { with: { constructor: "open", dc: "closed" } } },
    { id: "off", kind: "confirm", breakers: { leaves: { dc: "open" } } },
  ];
  const first = [answerAt(1, "switch_off", done), answerAt(3, "voltage", volts)];
  expect(verdictOf(first, two).code).toBe("passed");
  const { sentence } = verdictOf([...first, answerAt(2, "off", done)], two);
  expect(sentence).toContain('Breaker "dc" was open since "off"; needed closed.');
});

test("ten thousand switchings there and back are judged without a deep recursion", () => {
  const loop = [
    { ...open, breakers: { with: { battery_main: "closed" }, leaves: { battery_main: "open" } } },
    close,
    { id: "start", kind: "confirm", breakers: { leaves: { battery_main: "closed" } } },
    measured,
  ];
  const at = (second: number) => new Date(Date.UTC(2026, 10, 25, 0, 0, second)).toISOString();
  const answers = Array.from({ length: 10_001 }, (_, index) =>
    answerAt(0, index === 0 ? "start" : index % 2 === 1 ? "switch_off" : "switch_on", done, {
      ...{ order: index, takenAt: at(index), id: `a${index}` },
    }),
  );
  const last = (second: number) => [
    ...answers.slice(0, second),
    answerAt(0, "voltage", volts, { takenAt: at(second), order: second }),
  ];
  expect(verdictOf(last(10_000), loop).code).toBe("passed");
  expect(verdictOf(last(10_001), loop).code).toBe("breaker-state");
});
