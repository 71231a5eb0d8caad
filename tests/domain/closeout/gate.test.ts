// The gate: hold points of an inspection and test plan, and concessions (ISO 9000 family).
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { closeOut, RULE_VERSION } from "../../../src/domain/closeout/gate.ts";
import type { JobContext } from "../../../src/domain/plan/context.ts";
import { answerAt, contextOf, pack } from "../acceptance/judged.ts";
import { CONFIRM, type Draft, planOf } from "../plan/small-plan.ts";

const done = { done: true };
const note: Draft = { id: "note", kind: "confirm", holdPoint: false };
const perMeter = { repeat: { per: "unit", ofKind: "meter" } };

const gate = (items: Draft[], answers: Answer[], more: Partial<JobContext> = {}) =>
  closeOut(planOf(items), answers, contextOf(more));

describe("a job is closed", () => {
  test("when every hold point is met, though other items are not", () => {
    const { open, blockers, facts } = gate([CONFIRM, note], [answerAt(1, "done", done)]);
    expect([open, blockers]).toEqual([true, []]);
    expect(facts.map(({ itemId, outcome }) => `${itemId} ${outcome}`)).toEqual([
      "done pass",
      "note missing",
    ]);
  });

  test("when a hold point is conceded", () => {
    const concessions = [{ id: "c", itemId: "done", subject: "", grantedBy: "person-2" }];
    const { open, facts, stats } = gate([CONFIRM], [], { concessions });
    expect(open).toBe(true);
    expect(facts[0]).toMatchObject({ outcome: "conceded", concessionId: "c" });
    expect(stats).toMatchObject({ holdPoints: 1, holdPointsMet: 1, conceded: 1 });
  });

  test("when a hold point does not apply", () => {
    const meter = { ...CONFIRM, id: "meter", appliesWhen: "count.meter > 0" };
    const { open, stats } = gate([CONFIRM, meter], [answerAt(1, "done", done)]);
    expect(open).toBe(true);
    expect(stats).toEqual({ items: 2, facts: 2, holdPoints: 1, holdPointsMet: 1, conceded: 0 });
  });
});

describe("a job is not closed", () => {
  test("while a hold point has no answer, and the blocker says what to do", () => {
    const { open, blockers } = gate([CONFIRM], []);
    expect(open).toBe(false);
    expect(blockers).toEqual([
      {
        itemId: "done",
        stageId: "all",
        subject: "",
        subjectLabel: "",
        code: "missing",
        title: "Done",
        sentence: "There is no answer yet.",
        toClear: "Look that it is done",
        safetyCritical: false,
        concedable: true,
      },
    ]);
  });

  test("while a safety-critical item is unmet, conceded or not, hold point or not", () => {
    const critical = { ...CONFIRM, holdPoint: false, safetyCritical: true };
    const concessions = [{ id: "c", itemId: "done", subject: "", grantedBy: "person-2" }];
    const { open, blockers, facts } = gate([critical], [], { concessions });
    expect(open).toBe(false);
    expect(blockers[0]).toMatchObject({ safetyCritical: true, concedable: false });
    expect(facts[0]).toMatchObject({ holdPoint: true, safetyCritical: true });
  });

  test("while one unit of two is unmet, and the blocker names the unit", () => {
    const perPack = { ...CONFIRM, repeat: { per: "unit", ofKind: "battery-pack" } };
    const { blockers } = gate([perPack], [answerAt(1, "done", done, { subject: "pack-1" })]);
    expect(blockers).toHaveLength(1);
    expect(blockers[0]).toMatchObject({
      subject: "pack-2",
      unitId: "pack-2",
      subjectLabel: "KESTREL-5 KH00002",
    });
  });

  test("where a hold point asks for units and there is none: nothing is not everything", () => {
    const { open, blockers, facts } = gate(
      [CONFIRM, { ...CONFIRM, id: "meter", ...perMeter }],
      [answerAt(1, "done", done)],
    );
    expect(open).toBe(false);
    expect(facts[1]).toMatchObject({ subject: "", outcome: "missing", code: "no-subjects" });
    expect(blockers[0]).toMatchObject({
      code: "no-subjects",
      sentence: "There is no meter on the job.",
      concedable: false,
    });
  });

  test.each<[string, Draft, boolean]>([
    ["is no hold point", { holdPoint: false }, true],
    ["does not apply without units", { appliesWhen: "count.meter > 0" }, true],
    ["depends on the unit that is not there", { appliesWhen: "unit.position == 1" }, false],
  ])("except where the item without units %s: %s", (_what, more, open) => {
    const meter = { ...CONFIRM, id: "meter", ...perMeter, ...more };
    expect(gate([CONFIRM, meter], [answerAt(1, "done", done)]).open).toBe(open);
  });

  test("by answers for units that are not on the job, or to items not in the plan", () => {
    const perPack = { ...CONFIRM, repeat: { per: "unit" } };
    const answers = [
      answerAt(1, "done", done, { subject: "pack-9" }),
      answerAt(2, "done", done),
      answerAt(3, "other", done, { subject: "pack-1" }),
    ];
    expect(gate([perPack], answers).blockers.map(({ subject }) => subject)).toEqual([
      "pack-1",
      "pack-2",
    ]);
  });
});

describe("what the gate says", () => {
  const items = ["c", "a", "b"].map((id) => ({ ...CONFIRM, id, repeat: { times: 2 } }));

  test("comes in the plan's order, subject by subject", () => {
    const { blockers, facts } = gate(items, []);
    const order = ["c 1", "c 2", "a 1", "a 2", "b 1", "b 2"];
    expect(blockers.map(({ itemId, subject }) => `${itemId} ${subject}`)).toEqual(order);
    expect(facts.map(({ itemId, subject }) => `${itemId} ${subject}`)).toEqual(order);
  });

  test("is plain data: it survives JSON", () => {
    const result = gate(items, [answerAt(1, "a", done, { subject: "1" })]);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });

  test("names the version of its rules", () => {
    expect(gate(items, []).ruleVersion).toBe(RULE_VERSION);
  });

  test("leaves what it is given as it was", () => {
    const plan = planOf(items);
    const answers = [
      answerAt(2, "a", done, { subject: "1" }),
      answerAt(1, "a", done, { subject: "1" }),
    ];
    const context = contextOf({ units: [pack(1)] });
    const before = structuredClone({ answers, context });
    closeOut(plan, answers, context);
    expect({ answers, context }).toEqual(before);
  });
});
