// What the gate records for each item and subject, and how a person is told the way out (hold
// points and concessions: ISO 9000 family).
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { closeOut, RULE_VERSION } from "../../../src/domain/closeout/gate.ts";
import type { JobContext } from "../../../src/domain/plan/context.ts";
import { answerAt, contextOf } from "../acceptance/judged.ts";
import { CONFIRM, type Draft, planOf } from "../plan/small-plan.ts";

const done = { done: true };
const gate = (items: Draft[], answers: Answer[], more: Partial<JobContext> = {}) =>
  closeOut(planOf(items), answers, contextOf(more));
const about = { itemId: "done", subject: "", holdPoint: true, safetyCritical: false };

describe("a fact", () => {
  test("names the answer that it rests on", () => {
    expect(gate([CONFIRM], [answerAt(1, "done", done)]).facts).toStrictEqual([
      {
        ...about,
        ...{ outcome: "pass", clears: true, code: "passed", sentence: "Confirmed." },
        answerId: "answer-done--1",
      },
    ]);
  });

  test("names no answer and no concession where there is none", () => {
    expect(gate([CONFIRM], []).facts).toStrictEqual([
      {
        ...about,
        ...{ outcome: "missing", clears: false, code: "missing" },
        sentence: "There is no answer yet.",
      },
    ]);
  });

  test("names the concession, and the answer that it releases", () => {
    const concessions = [{ id: "c", itemId: "done", subject: "", grantedBy: "person-2" }];
    const answers = [answerAt(1, "done", { done: false })];
    expect(gate([CONFIRM], answers, { concessions }).facts).toStrictEqual([
      {
        ...about,
        ...{ outcome: "conceded", clears: true, code: "conceded" },
        sentence: "Marked as not done. Released by concession.",
        ...{ answerId: "answer-done--1", concessionId: "c" },
      },
    ]);
  });
});

describe("an item without units", () => {
  const none = { answers: [], units: { units: [] } };
  const perUnit = (ofKind?: string) => ({
    ...CONFIRM,
    repeat: ofKind === undefined ? { per: "unit" } : { per: "unit", ofKind },
  });

  test.each<[string, string | undefined]>([
    ["inverter", "inverter"],
    ["battery-pack", "battery-pack"],
    ["unit", undefined],
  ])("is told to want a %s", (kind, ofKind) => {
    const { blockers } = gate([perUnit(ofKind)], none.answers, none.units);
    expect(blockers).toStrictEqual([
      {
        ...{ itemId: "done", stageId: "all", subject: "", subjectLabel: "", title: "Done" },
        code: "no-subjects",
        sentence: `There is no ${kind} on the job.`,
        toClear: `Put the ${kind} on the job by its serial number.`,
        ...{ safetyCritical: false, concedable: false },
      },
    ]);
  });

  test("that does not apply is recorded as such", () => {
    const meter = { ...perUnit("meter"), appliesWhen: "count.meter > 0" };
    const { facts } = gate([meter, { ...CONFIRM, id: "other" }], none.answers, none.units);
    expect(facts[0]).toStrictEqual({
      ...about,
      ...{ outcome: "not-applicable", clears: true, code: "not-applicable" },
      sentence: "It does not apply to this job.",
    });
  });
});

test("a blocker tells what clears what was found, not how the item is done at first", () => {
  const { blockers } = gate([CONFIRM], [answerAt(1, "done", { done: false })]);
  expect(blockers[0]).toMatchObject({
    sentence: "Marked as not done.",
    toClear: "Do it and confirm.",
  });
});

test("of hold points, those met and those unmet are counted apart", () => {
  const items = ["a", "b", "c"].map((id) => ({ ...CONFIRM, id }));
  const answers = [answerAt(1, "a", done), answerAt(2, "b", { done: false })];
  expect(gate(items, answers).stats).toEqual({
    ...{ items: 3, facts: 3, holdPoints: 3, holdPointsMet: 1, conceded: 0 },
  });
});

test("results say by which rules they were found, so that later ones can be told from them", () => {
  expect(RULE_VERSION).toMatch(/^gate\/[1-9]\d*$/);
});
