// Limits worked out from other answers, as they stood when the reading was taken.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, pack, verdictIn } from "./judged.ts";

const volts = (number: number) => ({ number, unit: "V" });

const codeOf = (
  items: Draft[],
  itemId: string,
  answers: Answer[],
  more = contextOf(),
  subject = "",
) => verdictIn(planOf(items), itemId, answers, more, subject).code;

describe("a bound worked out from another answer", () => {
  const items = [
    { id: "before", kind: "measure", unit: "V", limit: { min: 40 } },
    {
      id: "drop",
      kind: "measure",
      unit: "mV",
      limit: { min: { cel: "answers.before * 1000 - 500" } },
    },
  ];
  const at = (minute: number, itemId: string, number: number) =>
    answerAt(minute, itemId, { number, unit: itemId === "drop" ? "mV" : "V" });
  const drop = (answers: Answer[]) => verdictIn(planOf(items), "drop", answers);

  test("is in the unit of its own item, from the other in that one's unit", () => {
    expect(drop([at(1, "before", 50), at(2, "drop", 49_500)]).outcome).toBe("pass");
    expect(drop([at(1, "before", 50), at(2, "drop", 49_499)]).sentence).toBe(
      "Read 49499 mV; needed at least 49500 mV.",
    );
  });

  test("uses the last answer before the reading, and none after it", () => {
    const answers = [
      at(1, "before", 60),
      at(2, "before", 50),
      at(3, "drop", 49_600),
      at(4, "before", 60),
    ];
    expect(drop(answers).outcome).toBe("pass");
    expect(drop([...answers, at(5, "drop", 49_600)]).sentence).toContain("at least 59500 mV");
  });

  test("is out of sequence while the other has no answer, or one that fails", () => {
    expect(drop([at(2, "drop", 49_600)]).code).toBe("out-of-sequence");
    expect(drop([at(1, "before", 30), at(2, "drop", 49_600)]).code).toBe("out-of-sequence");
  });

  test("cannot be worked out from a reading beyond the range", () => {
    const over = answerAt(1, "before", { number: ">60", unit: "V" });
    const verdict = drop([over, at(2, "drop", 99_000)]);
    expect(verdict.code).toBe("limit-not-computable");
    expect(verdict.sentence).toContain("answers.before is not known here");
  });

  test("is told beforehand, once it can be worked out", () => {
    expect(drop([at(1, "before", 50)]).sentence).toBe(
      "There is no answer yet; needed at least 49500 mV.",
    );
    expect(drop([]).sentence).toBe("There is no answer yet.");
  });
});

describe("a bound worked out from the readings of every pack", () => {
  const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
  const items = [
    { id: "ocv", kind: "measure", unit: "V", limit: { min: 40 }, ...perPack },
    {
      id: "close",
      kind: "measure",
      unit: "V",
      limit: { max: { cel: "lowest(readings.ocv) + 0.5" } },
      ...perPack,
    },
  ];
  const ocv = (n: number, number: number) =>
    answerAt(n, "ocv", volts(number), { subject: `pack-${n}` });
  const close = answerAt(5, "close", volts(50.4), { subject: "pack-1" });
  const code = (answers: Answer[], units = [pack(1), pack(2)]) =>
    codeOf(items, "close", [...answers, close], contextOf({ units }), "pack-1");

  test.each<[string, Answer[], string]>([
    ["both near", [ocv(1, 50.4), ocv(2, 50)], "passed"],
    ["one far below", [ocv(1, 50.4), ocv(2, 49.8)], "failed"],
    ["one not read", [ocv(1, 50.4)], "out-of-sequence"],
  ])("%s: %s", (_what, answers, expected) => {
    expect(code(answers)).toBe(expected);
  });

  test.each<[string, Answer[], number]>([
    ["one is not read", [ocv(1, 50.4)], 2],
    ["there is no pack", [], 0],
  ])("where order is only marked and %s, it cannot be worked out", (_what, answers, packs) => {
    const [first, second] = items as Draft[] as [Draft, Draft];
    const { repeat: _perPack, ...once } = second;
    const units = [pack(1), pack(2)].slice(0, packs);
    const marked = [first, { ...once, sequence: "mark" }];
    const closing = { ...close, subject: "" };
    const context = contextOf({ units });
    expect(codeOf(marked, "close", [...answers, closing], context)).toBe("limit-not-computable");
  });
});
