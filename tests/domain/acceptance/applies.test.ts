// Whether an item is asked at all, by site, unit and earlier answers.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, pack, verdictIn } from "./judged.ts";

const codeOf = (
  items: Draft[],
  itemId: string,
  answers: Answer[],
  more = contextOf(),
  subject = "",
) => verdictIn(planOf(items), itemId, answers, more, subject).code;

describe("whether an item applies", () => {
  const items = (appliesWhen: string): Draft[] => [
    { id: "earthing", kind: "choose", options: ["rod", "none"] },
    { id: "rod", kind: "confirm", appliesWhen },
    { id: "closed", kind: "confirm" },
  ];
  const chosen = (choice: string) => answerAt(1, "earthing", { choice });

  test.each<[string, Answer[], string]>([
    ['answers.earthing == "rod"', [chosen("rod")], "missing"],
    ['answers.earthing == "rod"', [chosen("none")], "not-applicable"],
    [
      'answers.earthing == "rod"',
      [chosen("rod"), { ...chosen("none"), id: "later", order: 2 }],
      "not-applicable",
    ],
    ['answers.earthing == "rod"', [], "missing"],
    ['site.supply == "IT" && answers.earthing == "rod"', [], "not-applicable"],
    ['site.supply == "TT" || answers.earthing == "rod"', [], "missing"],
    ["count.meter > 0", [], "not-applicable"],
    ["count.batteryPack == 2", [], "missing"],
  ])("%s: %s", (appliesWhen, answers, code) => {
    expect(codeOf(items(appliesWhen), "rod", answers)).toBe(code);
  });

  test("one that does not apply is met, whatever was answered to it", () => {
    const plan = planOf(items("false || count.meter > 0"));
    const answers = [answerAt(1, "rod", { done: false })];
    expect(verdictIn(plan, "rod", answers)).toMatchObject({
      outcome: "not-applicable",
      clears: true,
      attempts: 1,
    });
  });

  test("a unit whose revision is not known is asked, rather than left out", () => {
    const item = {
      id: "rev",
      kind: "confirm",
      repeat: { per: "unit" },
      appliesWhen: 'unit.hardwareRevision == "B"',
    };
    const ask = (hardwareRevision?: string) => {
      const units = [pack(1, hardwareRevision === undefined ? {} : { hardwareRevision })];
      return codeOf(
        [item, { id: "x", kind: "confirm" }],
        "rev",
        [],
        contextOf({ units }),
        "pack-1",
      );
    };
    expect(ask("B")).toBe("missing");
    expect(ask("A")).toBe("not-applicable");
    expect(ask()).toBe("missing");
  });
});
